import { expect, it } from 'vitest';
import { refrigerantByName } from '../../../src/engine/refrigerant/by-name.ts';
import type { Rig, RigPart } from '../../../src/engine/rig/rig.ts';
import { type Charging, charge } from '../../../src/engine/transfer/charge.ts';
import { cite, numberOf, type ReferenceRow, referenceRows } from '../../references/rows.ts';

function rigOf(row: ReferenceRow): Rig {
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

it.each(referenceRows('charging').map((row) => [row.id, row] as const))(
  '%s takes as long as by brute force, and leaves cylinder and system as warm',
  (_, row) => {
    const { end, time, last } = charge(chargingOf(row), rigOf(row));
    expect(end, cite(row)).toBe('done');
    expect(Math.abs(time / 60 / Number(row.cells.minutes) - 1), cite(row)).toBeLessThan(0.02);
    expect(Math.abs(last.cylinder.temperature - 273.15 - Number(row.cells.cylinder_end_C)), cite(row)).toBeLessThan(
      0.3,
    );
    expect(Math.abs(last.system.temperature - 273.15 - Number(row.cells.system_end_C)), cite(row)).toBeLessThan(0.3);
  },
);
