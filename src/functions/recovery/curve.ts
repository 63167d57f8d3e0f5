import { refrigerantByName } from '../../engine/refrigerant/by-name.ts';
import { cylinderFill } from '../../engine/refrigerant/cylinder.ts';
import { recoveryCurve } from '../../engine/transfer/recovery-curve.ts';
import type { RecoveryMoment } from '../../engine/transfer/recovery-stages.ts';
import type { Cell } from '../../tables/cells.ts';
import type { SpillColumn } from '../../tables/spill.ts';
import { defineFunction } from '../define.ts';
import { conditions, number, optional, partsTable, quantity, text } from '../parameters.ts';
import { textColumn, timeColumn } from '../rig/columns.ts';
import { gearOf, taskOf } from './gear.ts';
import { EXAMPLE_MACHINES, RECOVERY_NOTES, RECOVERY_SOURCES } from './notes.ts';

const DEFAULT_POINTS = 40;
const MOST_POINTS = 5000;
/** K; below it the water of the air freezes on the parts and water inside a heat exchanger may freeze */
const FREEZING = 273.15;

const pressure = (name: string): SpillColumn => ({ name, quantity: 'pressure', metricUnit: 'kPa', inchUnit: 'psia' });
const mass = (name: string): SpillColumn => ({ name, quantity: 'mass', metricUnit: 'kg', inchUnit: 'lb' });

const columns = [
  timeColumn('Time'),
  pressure('System pressure'),
  mass('Mass left'),
  mass('Liquid left'),
  { name: 'Liquid temperature', quantity: 'temperature', metricUnit: 'C', inchUnit: 'F' },
  textColumn('State'),
  pressure('Suction pressure'),
  { name: 'Rate', quantity: 'mass flow', metricUnit: 'kg/min', inchUnit: 'lb/min' },
  { name: 'Cylinders filled' },
] as const satisfies readonly SpillColumn[];

function stateOf({ state, temperature }: RecoveryMoment): string {
  if (state === 'vapour') return 'vapour';
  return temperature < FREEZING ? 'liquid, frost' : 'liquid';
}

export const recoverCurve = defineFunction({
  id: 'RECOVER.CURVE',
  group: 'Recovery and charging',
  summary: 'The recovery as a table for a chart: time, pressure, mass and liquid left, temperature, state and rate.',
  parameters: {
    refrigerant: text('refrigerant such as R-410A'),
    charge: quantity('mass', 'kg', 'refrigerant in the system', { above: 0 }),
    volume: quantity('volume', 'L', 'inside volume of the system', { above: 0 }),
    parts: partsTable('range with a header row: one row a part, from the recovery machine to the system'),
    rig: text('name of a rig of the parts table'),
    points: optional(number('how many points', { atLeast: 2, atMost: MOST_POINTS }), DEFAULT_POINTS),
    conditions: conditions(),
  },
  result: { kind: 'table', columns, description: 'one row a point, from the start to the level' },
  examples: [
    {
      formula: `=NARROWS.RECOVER.CURVE("R-410A",5,20,${EXAMPLE_MACHINES},"small",12,{"Heat","20 W/K";"Cylinder","12 L"})`,
      shows: 'twelve points of a recovery as vapour: the liquid frosts, then the last vapour goes',
    },
  ],
  notes: [
    'State is liquid, liquid with frost where it is colder than 0 C (drain or circulate water in a heat exchanger first: it may freeze), or vapour; without liquid there is no liquid temperature.',
    'Suction pressure is that at the machine; in push-pull that of the cylinder. Rate is the net mass that leaves.',
    'Cylinders filled counts cylinders of the water capacity Cylinder of the conditions, each to what CYLINDER.FILL allows at the warmer of Ambient and Cylinder temperature; blank without Cylinder. 2.3 means three cylinders.',
    ...RECOVERY_NOTES,
  ],
  sources: RECOVERY_SOURCES,
  body: ({ refrigerant, charge, volume, parts, rig, points, conditions }) => {
    const fluid = refrigerantByName(refrigerant);
    const gear = gearOf(fluid, parts.rig(rig), conditions.ambientTemperature);
    const moments = recoveryCurve(gear, taskOf(charge, volume, conditions), Math.round(points));
    const { cylinder, ambientTemperature, cylinderTemperature = ambientTemperature } = conditions;
    const fill =
      cylinder === undefined
        ? undefined
        : cylinderFill(fluid, cylinder, Math.max(ambientTemperature, cylinderTemperature)).mass;
    const rows = moments.map((moment): Cell[] => [
      moment.time,
      moment.pressure,
      moment.mass,
      moment.liquid,
      moment.state === 'vapour' ? '' : moment.temperature,
      stateOf(moment),
      moment.suction,
      moment.flow,
      fill === undefined ? '' : (charge - moment.mass) / fill,
    ]);
    return { columns, rows };
  },
});
