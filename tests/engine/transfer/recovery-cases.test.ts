import { expect, it } from 'vitest';
import type { Passage } from '../../../src/engine/flow/passage.ts';
import { refrigerantByName } from '../../../src/engine/refrigerant/by-name.ts';
import type { Machine, Rig, RigPart } from '../../../src/engine/rig/rig.ts';
import { recover } from '../../../src/engine/transfer/recovery.ts';
import { type RecoveryMode, recoveryGear } from '../../../src/engine/transfer/recovery-gear.ts';
import { cite, numberOf, type ReferenceRow, referenceRows } from '../../references/rows.ts';

function passageOf(text: string): Passage {
  const [kind, first = 0, second = 0] = text.split(':').map((part, i) => (i === 0 ? part : Number(part)));
  if (kind === 'tube') return { kind, bore: Number(first), length: Number(second), loss: 1.5, roughness: 1.5e-6 };
  return { kind: 'opening', bore: Number(first), dischargeCoefficient: Number(second) };
}

function rigOf(row: ReferenceRow): Rig {
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

it.each(referenceRows('recovery').map((row) => [row.id, row] as const))(
  '%s takes as long as by brute force, gets as cold, and is dry at the same time',
  (_, row) => {
    const gear = recoveryGear(
      refrigerantByName(row.inputs.get('refrigerant') ?? ''),
      rigOf(row),
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
    const minutes = Number(row.cells.minutes);
    const dry = Number(row.cells.dry_minutes);
    expect(Math.abs(result.time / 60 / minutes - 1), cite(row)).toBeLessThan(0.02);
    expect(Math.abs(result.dry / 60 - dry), cite(row)).toBeLessThan(0.02 * dry + 1e-9);
    expect(result.coldest - 273.15, cite(row)).toBeCloseTo(Number(row.cells.coldest_C), 0);
    expect(Math.abs(result.misses.mass)).toBeLessThan(1e-6);
    expect(Math.abs(result.misses.energy)).toBeLessThan(1e-4);
  },
);
