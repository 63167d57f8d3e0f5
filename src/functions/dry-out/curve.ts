import { dryOutCurve } from '../../engine/dry/curve.ts';
import { pullDownCurve } from '../../engine/evacuate/pulldown.ts';
import type { Cell } from '../../tables/cells.ts';
import type { SpillColumn } from '../../tables/spill.ts';
import { defineFunction } from '../define.ts';
import { conditions, number, optional, partsTable, quantity, text } from '../parameters.ts';
import { pressureColumn, textColumn, timeColumn } from '../rig/columns.ts';
import { curveOf, loadOf } from '../rig/curves.ts';
import { EXAMPLE_PARTS } from '../rig/example-parts.ts';
import { DRY_OUT_NOTES, DRY_OUT_SOURCES } from './notes.ts';
import { gasAtAmbient, surfaceOf, wetSystem } from './surfaces.ts';

const DEFAULT_POINTS = 40;
const MOST_POINTS = 5000;

const massColumn: SpillColumn = { name: 'Water left', quantity: 'mass', metricUnit: 'g', inchUnit: 'oz' };
const temperatureColumn: SpillColumn = {
  name: 'Water temperature',
  quantity: 'temperature',
  metricUnit: 'C',
  inchUnit: 'F',
};

const columns = [
  timeColumn('Time'),
  pressureColumn('System pressure'),
  massColumn,
  temperatureColumn,
  textColumn('State'),
  pressureColumn('Vapour at pump'),
  textColumn('Pump'),
] as const;

const OVER_LIMIT = 'above its water limit';

export const dryCurve = defineFunction({
  id: 'DRY.CURVE',
  group: 'Dry-out',
  summary: 'The dry-out as a table for a chart: time, pressure, water left, its temperature and state.',
  parameters: {
    volume: quantity('volume', 'L', 'inside volume of the system', { above: 0 }),
    water: quantity('mass', 'g', 'liquid water in the system; ice where Ambient is below freezing', { atLeast: 0 }),
    parts: partsTable(),
    rig: text('name of a rig of the parts table'),
    points: optional(number('how many points', { atLeast: 2, atMost: MOST_POINTS }), DEFAULT_POINTS),
    conditions: conditions(),
  },
  result: { kind: 'table', columns, description: 'one row a point, from the start to dry and at target' },
  examples: [
    {
      formula: `=NARROWS.DRY.CURVE(20,5,${EXAMPLE_PARTS},"wide",12,{"Heat","0.5 W/K"})`,
      shows: 'twelve points of the dry-out of 5 g of water through a wide hose: it freezes on the way',
    },
  ],
  notes: [
    'The points lie closer where pressure or water change fast.',
    'State is liquid, freezing (liquid and ice together at 0.01 C, freezing or thawing), ice, or dry; once dry there is no water temperature.',
    'Pump says where the vapour pressure at the pump inlet is above Water limit of the parts table: vapour then condenses in the pump. It is blank for a pump with neither Water limit nor Gas ballast.',
    'Water limit, where blank, is worked out from Gas ballast B, Speed S and Pump temperature (70 C where blank): B/S p_o p_s/(p_o - p_s), p_s the saturation pressure of water at the pump’s temperature and p_o 101325 Pa. Computed from this model: vapour alone, dry ballast air; air at 20 C and 60 % humidity takes 1400 Pa off p_s, 4 % at 70 C. Ballast 0 is shut, and the limit 0. What ballast does to the ultimate pressure is for Ultimate to say.',
    ...DRY_OUT_NOTES,
  ],
  sources: DRY_OUT_SOURCES,
  body: ({ volume, water, parts, rig, points, conditions }) => {
    const found = parts.rig(rig);
    const count = Math.round(points);
    if (water === 0) {
      const { startPressure, target } = conditions;
      const curve = curveOf(found, gasAtAmbient(conditions));
      const moments = pullDownCurve(curve, volume, startPressure, target, count, loadOf(conditions));
      return { columns, rows: moments.map(({ time, pressure }): Cell[] => [time, pressure, 0, '', 'dry', 0, '']) };
    }
    const limit = found.pump.waterLimit;
    const way = dryOutCurve(surfaceOf(found, conditions), wetSystem(volume, water, conditions), count);
    const rows = way.points.map((point): Cell[] => [
      point.time,
      point.pressure,
      point.water,
      point.temperature ?? '',
      point.state,
      point.vapourAtPump,
      limit !== undefined && point.vapourAtPump > limit ? OVER_LIMIT : '',
    ]);
    return { columns, rows };
  },
});
