import { type ChargeEnd, type ChargeMoment, charge } from '../../engine/transfer/charge.ts';
import type { Cell } from '../../tables/cells.ts';
import type { SpillColumn } from '../../tables/spill.ts';
import { defineFunction } from '../define.ts';
import { conditions, number, optional, partsTable, quantity, text } from '../parameters.ts';
import { textColumn, timeColumn } from '../rig/columns.ts';
import { EXAMPLE_PARTS } from '../rig/example-parts.ts';
import { CHARGING_NOTES, CHARGING_SOURCES } from './notes.ts';
import { chargingOf } from './set-up.ts';

const DEFAULT_POINTS = 40;
const MOST_POINTS = 5000;
const FREEZING = 273.15;

const mass = (name: string): SpillColumn => ({ name, quantity: 'mass', metricUnit: 'kg', inchUnit: 'lb' });
const pressure = (name: string): SpillColumn => ({ name, quantity: 'pressure', metricUnit: 'kPa', inchUnit: 'psia' });
const temperature = (name: string): SpillColumn => ({ name, quantity: 'temperature', metricUnit: 'C', inchUnit: 'F' });

const columns = [
  timeColumn('Time'),
  mass('In the system'),
  { name: 'Rate', quantity: 'mass flow', metricUnit: 'kg/min', inchUnit: 'lb/min' },
  pressure('Cylinder pressure'),
  temperature('Cylinder temperature'),
  pressure('System pressure'),
  temperature('System temperature'),
  textColumn('State'),
  textColumn('Cylinder'),
] as const satisfies readonly SpillColumn[];

const ENDS: Readonly<Record<ChargeEnd, string>> = {
  done: 'all is in',
  met: 'stopped: the pressures have met',
  dry: 'stopped: no liquid left in the cylinder',
  cold: 'stopped: the cylinder is too cold',
};

function rowOf(moment: ChargeMoment, state: string): Cell[] {
  const { time, charged, rate, cylinder, system } = moment;
  const frost = cylinder.temperature < FREEZING ? 'frost' : '';
  return [
    time,
    charged,
    rate,
    cylinder.pressure,
    cylinder.temperature,
    system.pressure,
    charged > 0 ? system.temperature : '',
    state,
    frost,
  ];
}

export const chargeCurve = defineFunction({
  id: 'CHARGE.CURVE',
  group: 'Recovery and charging',
  summary: 'The charging as a table for a chart: time, mass in the system, rate, pressures and temperatures.',
  parameters: {
    refrigerant: text('refrigerant, such as R-410A'),
    mass: quantity('mass', 'kg', 'refrigerant to be charged', { above: 0 }),
    parts: partsTable('range with a header row: one row a part, from the cylinder to the system'),
    rig: text('name of a rig of the parts table'),
    points: optional(number('how many points', { atLeast: 2, atMost: MOST_POINTS }), DEFAULT_POINTS),
    conditions: conditions('range of names, values and units; Volume is needed'),
  },
  result: { kind: 'table', columns, description: 'one row a point, evenly in time, until all is in or it stops short' },
  examples: [
    {
      formula: `=NARROWS.CHARGE.CURVE("R-134a",2,${EXAMPLE_PARTS},"small",12,{"Volume","8 L"})`,
      shows: 'twelve points of 2 kg of liquid through a small hose on a fitted core',
    },
    {
      formula: `=NARROWS.CHARGE.CURVE("R-134a",2,${EXAMPLE_PARTS},"wide",8,{"Volume","8 L";"Charge as","vapour"})`,
      shows: 'vapour stops long before 2 kg are in: the last row says so',
    },
  ],
  notes: [
    'State is choked (a lower pressure in the system would draw no more), filling, or in the last row how it ended; a charge that stops short is no error here.',
    'Cylinder says frost where its refrigerant is below 0 C.',
    'System temperature is that of the refrigerant in the system; colder than its table it stays at the lowest of the table.',
    ...CHARGING_NOTES,
  ],
  sources: CHARGING_SOURCES,
  body: ({ refrigerant, mass, parts, rig, points, conditions }) => {
    const charging = chargingOf(refrigerant, mass, conditions);
    const found = parts.rig(rig);
    const { time, end, last } = charge(charging, found);
    const count = Math.round(points);
    const times = Array.from({ length: count - 1 }, (_, i) => (i * time) / (count - 1));
    const rows: Cell[][] = [];
    const see = (moment: ChargeMoment): void => {
      rows.push(rowOf(moment, moment.choked ? 'choked' : 'filling'));
    };
    charge(charging, found, { times, see });
    rows.push(rowOf(last, ENDS[end]));
    return { columns, rows };
  },
});
