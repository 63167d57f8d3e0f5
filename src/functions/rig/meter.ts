import { meterReading } from '../../engine/rig/speed.ts';
import { defineFunction } from '../define.ts';
import { conditions, partsTable, text } from '../parameters.ts';
import { curveOf } from './curves.ts';
import { EXAMPLE_PARTS } from './example-parts.ts';

export const rigMeter = defineFunction({
  id: 'RIG.METER',
  group: 'Rig',
  summary: 'What a free-air flow meter on the open end of a rig would read while the pump runs.',
  parameters: {
    parts: partsTable(),
    rig: text('name of a rig of the parts table'),
    conditions: conditions(),
  },
  result: { kind: 'number', quantity: 'volume flow', unit: 'L/s', description: 'flow of air at ambient pressure' },
  examples: [
    {
      formula: `=NARROWS.RIG.METER(${EXAMPLE_PARTS},"small")`,
      shows: 'the free-air reading at the end of a small hose on a fitted core',
    },
  ],
  notes: [
    'The meter is taken to have no resistance of its own, and to count the gas at the temperature of the conditions.',
    'A meter works near ambient pressure: near the end of an evacuation the same rig keeps a far smaller part of the pump (RIG.SPEED).',
  ],
  sources: ['Throughput at ambient pressure over ambient pressure.'],
  body: ({ parts, rig, conditions }) =>
    meterReading(curveOf(parts.rig(rig), conditions.gas), conditions.ambientPressure),
});
