import type { Passage } from '../../src/engine/flow/passage.ts';
import { refrigerantByName } from '../../src/engine/refrigerant/by-name.ts';
import type { Machine, Rig, RigPart } from '../../src/engine/rig/rig.ts';
import { type Charging, charge } from '../../src/engine/transfer/charge.ts';
import { recover } from '../../src/engine/transfer/recovery.ts';
import { type RecoveryMode, recoveryGear } from '../../src/engine/transfer/recovery-gear.ts';
import { account, type Comparison, closeTo, same, within } from './account.ts';
import { numberOf, type ReferenceRow } from './rows.ts';

function passageOf(text: string): Passage {
  const [kind, first = 0, second = 0] = text.split(':').map((part, i) => (i === 0 ? part : Number(part)));
  if (kind === 'tube') return { kind, bore: Number(first), length: Number(second), loss: 1.5, roughness: 1.5e-6 };
  return { kind: 'opening', bore: Number(first), dischargeCoefficient: Number(second) };
}

function recoveryRig(row: ReferenceRow): Rig {
  const optional = (key: string, name: string) => (row.inputs.has(key) ? { [name]: numberOf(row, key) } : {});
  const machine: Machine = {
    name: 'machine',
    displacement: numberOf(row, 'displacement'),
    ultimate: numberOf(row, 'ultimate'),
    efficiency: row.inputs.has('efficiency') ? numberOf(row, 'efficiency') : 1,
    approach: row.inputs.has('approach') ? numberOf(row, 'approach') : 0,
    ...optional('clearance', 'clearance'),
    ...optional('liquid_rate', 'liquidRate'),
  };
  const parts = (row.inputs.get('parts') ?? '')
    .split('+')
    .map((text): RigPart => ({ name: 'part', kind: 'hose', passage: passageOf(text.trim()), count: 1 }));
  return { name: 'rig', pump: { name: 'machine', speed: machine.displacement, ultimate: 0 }, machine, parts };
}

const ZERO_CELSIUS = 273.15;
/** Relative, on times. */
const TIME = 0.02;

/** As long as by brute force, as cold, dry at the same time; the balances of mass and energy closed. */
function recoveryRow(row: ReferenceRow): Comparison[] {
  const gear = recoveryGear(
    refrigerantByName(row.inputs.get('refrigerant') ?? ''),
    recoveryRig(row),
    numberOf(row, 'ambient'),
  );
  const result = recover(gear, {
    charge: numberOf(row, 'charge'),
    volume: numberOf(row, 'volume'),
    heat: numberOf(row, 'heat'),
    metal: row.inputs.has('metal') ? numberOf(row, 'metal') : 0,
    level: numberOf(row, 'level'),
    mode: (row.inputs.get('mode') ?? 'vapour') as RecoveryMode,
  });
  const dry = Number(row.cells.dry_minutes);
  return [
    within(result.time / 60, Number(row.cells.minutes), TIME, 'minutes'),
    closeTo(result.dry / 60, dry, TIME * dry + 1e-9, 'minutes until no liquid is left'),
    closeTo(result.coldest - ZERO_CELSIUS, Number(row.cells.coldest_C), 0.5, 'coldest, C'),
    closeTo(result.misses.mass, 0, 1e-6, 'balance of mass'),
    closeTo(result.misses.energy, 0, 1e-4, 'balance of energy'),
  ];
}

export const recovery = account('recovery', [[/./, recoveryRow]]);

function chargingRig(row: ReferenceRow): Rig {
  const parts = (row.inputs.get('parts') ?? '').split('+').map((text): RigPart => {
    const [bore = 0, length = 0, loss = 0] = text.trim().split(':').slice(1).map(Number);
    return { name: 'part', kind: 'hose', count: 1, passage: { kind: 'tube', bore, length, loss, roughness: 1.5e-6 } };
  });
  // the rows run from the cylinder, which stands where the pump would
  return { name: 'rig', pump: { name: 'pump', speed: 1, ultimate: 0 }, parts };
}

function chargingOf(row: ReferenceRow): Charging {
  return {
    refrigerant: refrigerantByName(row.inputs.get('refrigerant') ?? ''),
    mass: numberOf(row, 'mass'),
    as: row.inputs.get('as') === 'vapour' ? 'vapour' : 'liquid',
    cylinder: {
      charge: numberOf(row, 'cylinder'),
      temperature: numberOf(row, 'cylinder_start'),
      heat: numberOf(row, 'cylinder_heat'),
      bath: numberOf(row, 'bath'),
    },
    system: { volume: numberOf(row, 'volume'), heat: numberOf(row, 'heat'), ambient: numberOf(row, 'ambient') },
  };
}

/** As long as by brute force; cylinder and system left as warm. */
function chargingRow(row: ReferenceRow): Comparison[] {
  const { end, time, last } = charge(chargingOf(row), chargingRig(row));
  return [
    same(end, 'done', 'how it ends'),
    within(time / 60, Number(row.cells.minutes), TIME, 'minutes'),
    closeTo(last.cylinder.temperature - ZERO_CELSIUS, Number(row.cells.cylinder_end_C), 0.3, 'cylinder, C'),
    closeTo(last.system.temperature - ZERO_CELSIUS, Number(row.cells.system_end_C), 0.3, 'system, C'),
  ];
}

export const charging = account('charging', [[/./, chargingRow]]);
