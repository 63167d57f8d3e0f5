import { systemPressureBehindGauge } from '../../engine/rig/operate.ts';
import { prepareRig } from '../../engine/rig/prepare.ts';
import { defineFunction } from '../define.ts';
import { conditions, partsTable, quantity, text } from '../parameters.ts';
import { EXAMPLE_PARTS } from './example-parts.ts';

export const rigGauge = defineFunction({
  id: 'RIG.GAUGE',
  group: 'Rig',
  summary: 'True pressure at the system while a gauge at the pump shows a reading.',
  parameters: {
    parts: partsTable(),
    rig: text('name of a rig of the parts table'),
    reading: quantity('pressure', 'Pa', 'what the gauge at the pump inlet shows', { above: 0 }),
    conditions: conditions(),
  },
  result: { kind: 'number', quantity: 'pressure', unit: 'Pa', description: 'pressure at the system' },
  examples: [
    {
      formula: `=NARROWS.RIG.GAUGE(${EXAMPLE_PARTS},"small","100 micron")`,
      shows: 'the pressure that a gauge at the pump hides behind a small hose',
    },
  ],
  notes: ['Holds while gas flows steadily through the rig. With the rig valved off both ends settle to one pressure.'],
  sources: ['March through the parts from the pump inlet upstream.'],
  body: ({ parts, rig, reading, conditions }) =>
    systemPressureBehindGauge(prepareRig(parts.rig(rig), conditions.gas), reading),
});
