import { dryOut } from '../../engine/dry/dry-out.ts';
import { pullDownTime } from '../../engine/evacuate/pulldown.ts';
import { defineFunction } from '../define.ts';
import { conditions, partsTable, quantity, text } from '../parameters.ts';
import { curveOf, loadOf } from '../rig/curves.ts';
import { EXAMPLE_PARTS } from '../rig/example-parts.ts';
import { DRY_OUT_NOTES, DRY_OUT_SOURCES } from './notes.ts';
import { gasAtAmbient, surfaceOf, wetSystem } from './surfaces.ts';

export const dryTime = defineFunction({
  id: 'DRY.TIME',
  group: 'Dry-out',
  summary: 'Minutes until all water in a system has boiled off through a rig and the pressure is at the target.',
  parameters: {
    volume: quantity('volume', 'L', 'inside volume of the system', { above: 0 }),
    water: quantity('mass', 'g', 'liquid water in the system; ice where Ambient is below freezing', { atLeast: 0 }),
    parts: partsTable(),
    rig: text('name of a rig of the parts table'),
    conditions: conditions(),
  },
  result: { kind: 'number', quantity: 'time', unit: 'min', description: 'time until dry and at the target pressure' },
  examples: [
    {
      formula: `=NARROWS.DRY.TIME(20,5,${EXAMPLE_PARTS},"small",{"Heat","1 W/K"})`,
      shows: '5 g of water in a 20 L system, through a small hose on a fitted core',
    },
    {
      formula: `=NARROWS.DRY.TIME(20,5,${EXAMPLE_PARTS},"wide",{"Heat","1 W/K";"Ambient","10 C"})`,
      shows: 'the same through a wide hose on a cold day',
    },
  ],
  notes: [
    'The time ends where both hold: no water is left, and the pressure is at or below the target. It is from the start of the pump.',
    'No water (0) gives the pull-down of a dry system, as EVAC.TIME does at Ambient.',
    'The Water of the conditions is not used: it is an argument here.',
    'Whether the vapour passes the pump’s water limit is told by DRY.CURVE, in its column Pump.',
    ...DRY_OUT_NOTES,
  ],
  sources: DRY_OUT_SOURCES,
  body: ({ volume, water, parts, rig, conditions }) => {
    const found = parts.rig(rig);
    if (water === 0) {
      const { startPressure, target } = conditions;
      const curve = curveOf(found, gasAtAmbient(conditions));
      return pullDownTime(curve, volume, startPressure, target, loadOf(conditions));
    }
    const { dry, toTarget } = dryOut(surfaceOf(found, conditions), wetSystem(volume, water, conditions));
    return dry + toTarget;
  },
});
