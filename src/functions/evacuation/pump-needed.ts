import { pumpNeeded } from '../../engine/evacuate/pump-needed.ts';
import { prepareRig } from '../../engine/rig/prepare.ts';
import { defineFunction } from '../define.ts';
import { conditions, partsTable, quantity, text } from '../parameters.ts';
import { loadOf } from '../rig/curves.ts';
import { EXAMPLE_PARTS } from '../rig/example-parts.ts';
import { DRY_NOTE, MODEL_NOTES, PULL_DOWN_SOURCE } from './model-notes.ts';

export const pumpNeededSpeed = defineFunction({
  id: 'PUMP.NEEDED',
  group: 'Evacuation',
  summary: 'Smallest pump speed with which a rig reaches the target in the time there is.',
  parameters: {
    volume: quantity('volume', 'L', 'inside volume of the system', { above: 0 }),
    parts: partsTable(),
    rig: text('name of a rig of the parts table'),
    minutes: quantity('time', 'min', 'time there is', { above: 0 }),
    conditions: conditions(),
  },
  result: { kind: 'number', quantity: 'volume flow', unit: 'L/s', description: 'pump speed' },
  examples: [
    {
      formula: `=NARROWS.PUMP.NEEDED(20,${EXAMPLE_PARTS},"wide",10)`,
      shows: 'the pump that brings a 20 L system to 500 micron in ten minutes through a wide hose',
    },
  ],
  notes: [
    'The ultimate pressure is that of the rig’s own pump; its Speed table, where it has one, is scaled, and the answer is the largest speed of that table. Where even an endless pump is too slow the answer is #N/A, and the message says how long the rig alone takes.',
    DRY_NOTE,
    ...MODEL_NOTES,
  ],
  sources: [PULL_DOWN_SOURCE],
  body: ({ volume, parts, rig, minutes, conditions }) => {
    const { gas, startPressure: start, target } = conditions;
    const demand = { volume, start, target, time: minutes, load: loadOf(conditions) };
    return pumpNeeded(prepareRig(parts.rig(rig), gas), demand);
  },
});
