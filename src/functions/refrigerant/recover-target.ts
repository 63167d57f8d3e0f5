import { findRefrigerant, refrigerantNames } from '../../engine/refrigerant/by-name.ts';
import { CLASS_WITHOUT_TABLE, type PressureClass, pressureClassOf } from '../../engine/refrigerant/pressure-class.ts';
import {
  isLarge,
  NO_EVACUATION,
  type RecoveryLevel,
  recoveryLevel,
  SMALL_APPLIANCE,
  SMALL_APPLIANCE_CHARGE,
} from '../../engine/refrigerant/recovery-level.ts';
import { raise } from '../../faults/issue.ts';
import { type Cell, isCellError } from '../../tables/cells.ts';
import type { SpillColumn } from '../../tables/spill.ts';
import { plainName } from '../../tables/table.ts';
import { fromSI } from '../../units/quantity.ts';
import type { Parameter } from '../define.ts';
import { defineFunction } from '../define.ts';
import { optional, quantity, text } from '../parameters.ts';
import { isOldMachine } from './machine-date.ts';

const COLUMNS: readonly SpillColumn[] = [
  { name: 'Case' },
  { name: 'Pressure', quantity: 'pressure', metricUnit: 'Pa' },
  { name: 'Level' },
  { name: 'Share of charge', quantity: 'fraction', metricUnit: '%' },
  { name: 'Rule' },
  { name: 'Note' },
];

const CLASS_BY_WORDS: ReadonlyMap<string, PressureClass> = new Map(
  (['low', 'medium', 'high', 'very high'] as const).flatMap((name) =>
    [name, `${name} pressure`, `${name} pressure appliance`].map((words) => [plainName(words), name] as const),
  ),
);
const OTHERS: ReadonlyMap<string, readonly [name: string, pressureClass: PressureClass]> = new Map(
  [...CLASS_WITHOUT_TABLE].flatMap(([name, pressureClass]) =>
    [name, name.slice(2)].map((spelling) => [plainName(spelling), [name, pressureClass] as const] as const),
  ),
);
const SMALL = [
  'small appliance',
  'small appliance, compressor running',
  'small appliance, compressor not running',
] as const;
const VEHICLE: ReadonlySet<string> = new Set(
  ['vehicle', 'vehicle air conditioner', 'vehicle air conditioning', 'car air conditioner', 'MVAC'].map(plainName),
);

const TABLE = '40 CFR 82.156 Table 1';
const ELSEWHERE =
  'This is the rule of the United States. Elsewhere the local rule holds (in the EU the F-gas regulation 2024/573 and the standards that it calls for): ask what level it wants.';

interface Subject {
  readonly pressureClass: PressureClass;
  readonly why: string;
}

function subjectOf(appliance: string): Subject {
  const words = CLASS_BY_WORDS.get(plainName(appliance));
  if (words !== undefined) return { pressureClass: words, why: '' };
  const other = OTHERS.get(plainName(appliance));
  if (other !== undefined) return { pressureClass: other[1], why: `${other[0]} counts as ${other[1]} pressure.` };
  const fluid = findRefrigerant(appliance);
  if (fluid === undefined)
    return raise({
      kind: 'unknown',
      what: 'appliance',
      value: appliance,
      known: ['low pressure', 'medium pressure', 'high pressure', 'very high pressure', SMALL[0], ...refrigerantNames],
    });
  const { pressureClass, pressure, close } = pressureClassOf(fluid);
  if (pressure === undefined)
    return { pressureClass, why: `${fluid.name} is above its critical temperature at 104 F: very high pressure.` };
  const psia = Math.round(fromSI(pressure, 'psi', 'pressure'));
  const doubt = close ? ' That is near a limit of the classes: the list of the agency decides.' : '';
  return { pressureClass, why: `${fluid.name} has ${psia} psia at 104 F: ${pressureClass} pressure.${doubt}` };
}

function levelWords({ vacuum }: RecoveryLevel): string {
  if (vacuum === undefined) return '25 mmHg absolute';
  return vacuum === 0 ? '0 inHg of vacuum' : `${vacuum} inHg of vacuum`;
}

function smallAppliance(kind: string, charge: number, old: boolean): Cell[][] {
  const limit = fromSI(SMALL_APPLIANCE_CHARGE, 'lb', 'mass');
  if (charge > SMALL_APPLIANCE_CHARGE * (1 + 1e-9))
    return raise({
      kind: 'limit',
      argument: 'charge of a small appliance',
      value: fromSI(charge, 'lb', 'mass'),
      rule: 'at most',
      limit,
      unit: 'lb',
      todo: 'Give the pressure class or the refrigerant of the appliance: it is no small appliance in the sense of the rule.',
    });
  const { level, running, notRunning } = SMALL_APPLIANCE;
  const row = (share: number, words: string): Cell[] => [
    `small appliance, compressor ${words}`,
    level.pressure,
    `${Math.round(share * 100)} % of the charge, or ${levelWords(level)}`,
    share,
    '40 CFR 82.156(b)',
    old && share === running
      ? `For machines made before 15 November 1993 the rule asked for 80 %; 90 % is on the safe side. ${ELSEWHERE}`
      : ELSEWHERE,
  ];
  const rows = [row(running, 'running'), row(notRunning, 'not running')];
  if (kind === plainName(SMALL[1])) return rows.slice(0, 1);
  return kind === plainName(SMALL[2]) ? rows.slice(1) : rows;
}

function ordinary(appliance: string, charge: number, old: boolean): Cell[][] {
  const { pressureClass, why } = subjectOf(appliance);
  const level = recoveryLevel(pressureClass, charge, old);
  const made = old ? 'machine made before 15 November 1993' : 'machine made on or after 15 November 1993';
  const bySize = pressureClass === 'high' || pressureClass === 'medium';
  const size = bySize ? `, full charge ${isLarge(charge) ? '200 lb or more' : 'under 200 lb'}` : '';
  const note = `${why} ${ELSEWHERE}`.trim();
  const rows: Cell[][] = [
    [`${pressureClass} pressure${size}; ${made}`, level.pressure, levelWords(level), '', TABLE, note],
  ];
  // a level of 0 inHg leaves nothing to be excepted from
  if (pressureClass !== 'low' && level.vacuum !== 0) {
    rows.push([
      'repair that is not major and not followed by evacuation to atmosphere, or a leak that allows no more',
      NO_EVACUATION.pressure,
      '0 psig',
      '',
      '40 CFR 82.156(a)',
      'Read the rule before you lean on this exception.',
    ]);
  }
  return rows;
}

const machineDate: Parameter<boolean> = {
  ...text('date at which the recovery machine was made: a date, a year, "before" or "after" (15 November 1993)'),
  read: (raw, argument) => {
    // ranges and errors are told as for any text
    if (Array.isArray(raw) || isCellError(raw)) return text('').read(raw, argument) === '';
    return isOldMachine(raw, argument);
  },
};

export const recoverTarget = defineFunction({
  id: 'RECOVER.TARGET',
  group: 'Recovery and charging',
  summary: 'Level to which refrigerant is recovered before an appliance is opened, by the rule of the United States.',
  parameters: {
    appliance: text(
      'refrigerant of the appliance (R-410A), its pressure class (low, medium, high, very high pressure) or "small appliance"; the last also with "compressor running" or "compressor not running"',
    ),
    charge: quantity('mass', 'kg', 'full charge of the appliance', { above: 0 }),
    machineDate: optional(machineDate, false),
  },
  result: {
    kind: 'table',
    columns: COLUMNS,
    description: 'the required level in the first row, exceptions and other cases below it',
  },
  examples: [
    { formula: '=NARROWS.RECOVER.TARGET("R-410A",6)', shows: '101,253 Pa: 0 inHg of vacuum' },
    { formula: '=NARROWS.RECOVER.TARGET("R-134a","250 lb")', shows: '50,457 Pa: 15 inHg of vacuum' },
    {
      formula: '=NARROWS.RECOVER.TARGET("R-22","250 lb","before")',
      shows: '87,707 Pa: 4 inHg of vacuum, for an old machine',
    },
    {
      formula: '=NARROWS.RECOVER.TARGET("small appliance","1 lb")',
      shows: 'two rows: 90 % with the compressor running, 80 % without',
    },
  ],
  notes: [
    'The rule of the United States, 40 CFR 82 subpart F, as in force since 2018. Elsewhere the local rule holds. Read the rule and its exceptions: this is a reminder, no legal advice.',
    'The pressure as a number for another cell: INDEX(...,2,2).',
    'The rule counts vacuum from 29.9 inHg, so that 0 inHg is 101,253 Pa. Without a date the machine is one made on or after 15 November 1993.',
    'A refrigerant gives the class by its liquid saturation pressure at 104 F: low below 45, medium to 170, high to 355 psia, very high above or where it is beyond its critical temperature. Near a limit the list of the agency decides.',
    'Small appliances are made, charged and sealed in a factory with 5 lb or less: a small charge alone does not make one. Vehicle air conditioners have rules of their own.',
    'Some refrigerants are exempt in some uses (such as carbon dioxide, or ammonia and hydrocarbons in certain plants): the rule says which; caution holds all the same.',
  ],
  sources: [
    '40 CFR 82.152, 82.156 and Table 1, as in open copies and exam material; limit of a small appliance from memory',
    'saturation pressures as in REFRIGERANT',
  ],
  body: ({ appliance, charge, machineDate }) => {
    const kind = plainName(appliance);
    if (VEHICLE.has(kind))
      return raise({
        kind: 'wrong',
        argument: 'appliance',
        found: 'a vehicle air conditioner',
        allowed: 'a stationary appliance',
        todo: 'The table does not hold for vehicles: 40 CFR 82 subpart B and the service standards that it names do.',
      });
    const small = SMALL.some((name) => plainName(name) === kind);
    const rows = small ? smallAppliance(kind, charge, machineDate) : ordinary(appliance, charge, machineDate);
    return { columns: COLUMNS, rows };
  },
});
