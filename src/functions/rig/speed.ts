import { effectiveSpeed } from '../../engine/rig/speed.ts';
import { defineFunction } from '../define.ts';
import { conditions, partsTable, quantity, text } from '../parameters.ts';
import { curveOf } from './curves.ts';
import { EXAMPLE_PARTS } from './example-parts.ts';

export const rigSpeed = defineFunction({
  id: 'RIG.SPEED',
  group: 'Rig',
  summary: 'Effective pumping speed that is left at the system behind all parts of a rig, at one system pressure.',
  parameters: {
    parts: partsTable(),
    rig: text('name of a rig of the parts table'),
    pressure: quantity('pressure', 'Pa', 'pressure at the system', { above: 0 }),
    conditions: conditions(),
  },
  result: {
    kind: 'number',
    quantity: 'volume flow',
    unit: 'L/s',
    description: 'effective pumping speed at the system',
  },
  examples: [
    {
      formula: `=NARROWS.RIG.SPEED(${EXAMPLE_PARTS},"small","500 micron")`,
      shows: 'what a small hose on a fitted core leaves of a 5 cfm pump near the end of an evacuation',
    },
    {
      formula:
        '=NARROWS.RIG.SPEED({"Rig","Part","Kind","Speed table","Bore (mm)","Length (m)";"R","pump","pump","1 bar 4 m3/h; 1 mbar 3.6 m3/h; 0.02 mbar 0 m3/h","","";"R","hose","hose","",12.7,1.5},"R","1 mbar")',
      shows: 'what a wide hose leaves of a pump that is given by its speeds at three pressures',
    },
  ],
  notes: ['Zero at and below the ultimate pressure of the pump.'],
  sources: ['Throughput balance S_eff p = S(p2) p2 through parts in series (ISO 21360-1 for the pumping speed).'],
  body: ({ parts, rig, pressure, conditions }) => effectiveSpeed(curveOf(parts.rig(rig), conditions.gas), pressure),
});
