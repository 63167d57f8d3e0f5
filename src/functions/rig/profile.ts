import { rigProfile } from '../../engine/rig/profile.ts';
import { defineFunction } from '../define.ts';
import { conditions, partsTable, quantity, text } from '../parameters.ts';
import { pressureColumn, shareColumn, speedColumn, textColumn, velocityColumn } from './columns.ts';
import { curveOf } from './curves.ts';
import { EXAMPLE_PARTS } from './example-parts.ts';

const columns = [
  textColumn('Part'),
  textColumn('Kind'),
  pressureColumn('Pump side'),
  pressureColumn('System side'),
  shareColumn('Share of loss'),
  speedColumn('Conductance'),
  textColumn('Regime'),
  velocityColumn('Velocity'),
  textColumn('Knudsen number'),
] as const;

export const rigProfileTable = defineFunction({
  id: 'RIG.PROFILE',
  group: 'Rig',
  summary: 'Part by part from the pump to the system: pressures, share of the loss, conductance, regime and velocity.',
  parameters: {
    parts: partsTable(),
    rig: text('name of a rig of the parts table'),
    pressure: quantity('pressure', 'Pa', 'pressure at the system', { above: 0 }),
    conditions: conditions(),
  },
  result: { kind: 'table', columns, description: 'one row a part; the pump row shows its speed as conductance' },
  examples: [
    {
      formula: `=NARROWS.RIG.PROFILE(${EXAMPLE_PARTS},"small","500 micron")`,
      shows: 'which part of the rig costs the most near the end of an evacuation',
    },
  ],
  notes: [
    'A part’s share of the loss is its part of the pressure difference between the system and the pump inlet at this flow; the shares add up to 100 %.',
    'Parts in parallel share the loss of their branch by the flow that each carries.',
    'Velocity is that at the pump side of the part, at most the speed of sound; Knudsen number and regime are those at its mean pressure.',
    'At or below the ultimate pressure of the pump nothing flows: all shares are 0.',
  ],
  sources: ['March through the parts from the pump inlet upstream.'],
  body: ({ parts, rig, pressure, conditions }) => {
    const chosen = parts.rig(rig);
    const profile = rigProfile(curveOf(chosen, conditions.gas), pressure);
    const pump = [chosen.pump.name, 'pump', '', profile.pumpInlet, '', profile.pumpSpeed, '', '', ''];
    const rows = profile.parts.map((part) => [
      part.name,
      part.kind,
      part.downstream,
      part.upstream,
      part.share,
      part.conductance ?? '',
      part.regime,
      part.velocity,
      part.knudsen,
    ]);
    return { columns, rows: [pump, ...rows] };
  },
});
