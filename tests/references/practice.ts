import { runPlan } from '../../src/engine/breaks/plan.ts';
import { gasState } from '../../src/engine/gas/gas.ts';
import { saturationPressure, vapourDensity } from '../../src/engine/gas/water.ts';
import { refrigerantByName, refrigerantNames } from '../../src/engine/refrigerant/by-name.ts';
import { callById } from '../../src/functions/index.ts';
import type { Cell, CellRange } from '../../src/tables/cells.ts';
import { libraryParts } from '../../src/tables/library/parts.ts';
import { fromSI, toSI } from '../../src/units/quantity.ts';
import { gearFor, NITROGEN, WIDE } from '../engine/breaks/gear.ts';
import { account, between, byId, type Comparison, closeTo, near, type RowCheck, same, within } from './account.ts';
import type { ReferenceRow } from './rows.ts';

const ZERO_CELSIUS = 273.15;

/** "66.7 Pa" with the half of its last printed digit, "3.07 kPa" likewise, in Pa. */
function printed(text: string): readonly [pressure: number, halfDigit: number] {
  const match = /^(\d+(?:\.(\d+))?) (k?)Pa/.exec(text);
  if (match === null) throw new Error(`no pressure in "${text}"`);
  const scale = match[3] === 'k' ? 1000 : 1;
  return [Number(match[1]) * scale, 0.5 * 10 ** -(match[2] ?? '').length * scale];
}

/** Levels in micron with the same level printed in Pa: what a target or a hold limit typed in a sheet becomes. */
function level(row: ReferenceRow): Comparison {
  const [pascal, halfDigit] = printed(row.cells.value_SI ?? '');
  const ours = toSI(`${row.value} micron`, 'pressure', 'Pa', 'target');
  return closeTo(ours, pascal, halfDigit * (1 + 1e-9), 'Pa, of the level in micron');
}

/** EV-06 gives Pa first and "about 500 micron" in its note: good to some 3 % by its own words. */
function aboutLevel(row: ReferenceRow): Comparison {
  return within(toSI('500 micron', 'pressure', 'Pa', 'target'), Number(row.value), 0.03, 'Pa, of "about 500 micron"');
}

/** A column of a table that RECOVER.TARGET gives, or the refusal in its place. */
function targets(column: string, ...given: Cell[]): Cell[] {
  const outcome = callById('RECOVER.TARGET', given);
  if (!outcome.ok || !Array.isArray(outcome.value)) return [outcome.ok ? 'no table' : outcome.code];
  const [header = [], ...rows] = outcome.value as CellRange;
  const index = header.findIndex((name) => String(name).startsWith(column));
  return rows.map((row) => row[index]);
}
const target = (column: string, ...given: Cell[]): Cell => targets(column, ...given)[0];

const APPLIANCES = ['very high pressure', 'high pressure', 'high pressure', 'medium pressure', 'medium pressure'];
const CHARGES = ['300 lb', '199.9 lb', '200 lb', '199.9 lb', '200 lb'];

/** Rows 1 to 10 of the rule's table: appliance and charge change every second row, the machine's age every row. */
function tableOne(row: ReferenceRow): Comparison[] {
  const index = Number(row.id.slice(-2)) - 1;
  const given = [APPLIANCES[index >> 1], CHARGES[index >> 1], index % 2 === 0 ? 'before' : 'after'];
  const kilopascal = Number(/^([\d.]+) kPa/u.exec(row.cells.value_SI ?? '')?.[1]);
  return [
    closeTo(Number(target('Pressure', ...given)) / 1000, kilopascal, 0.006, 'kPa'),
    same(String(target('Level', ...given)), `${row.value} inHg of vacuum`, 'level'),
    same(String(target('Rule', ...given)), '40 CFR 82.156 Table 1', 'rule'),
  ];
}

function smallAppliance(words: string): (row: ReferenceRow) => Comparison[] {
  return (row) => {
    const given = [`small appliance, compressor ${words}`, '3 lb'];
    return [
      closeTo(Number(target('Share of charge', ...given)), Number(row.value), 0, '% of the charge'),
      // (29.9 - 4) inHg of 3386.389 Pa, by hand
      closeTo(Number(target('Pressure', ...given)), 87_707.5, 0.5, 'Pa, of 4 inHg of vacuum'),
    ];
  };
}

const CLASSES: readonly (readonly [name: string, pressureClass: string])[] = [
  ['R-123', 'low'],
  ['R-134a', 'medium'],
  ['R-600a', 'medium'],
  ['R-22', 'high'],
  ['R-410A', 'high'],
  ['R-32', 'very high'],
  ['R-744', 'very high'],
];

function pounds(name: string, ...more: Cell[]): number {
  const { ok, ...rest } = callById('CYLINDER.FILL', [name, '1000 lb', ...more]);
  const kilogram = ok && 'value' in rest ? Number(rest.value) : Number.NaN;
  return fromSI(kilogram, 'lb', 'mass');
}

function fillLimit(row: ReferenceRow): Comparison[] {
  // the row's example takes a specific gravity of 1.197, the equation of state gives 1190.7 kg/m3 at 25 C: 0.3 % less
  const gravity = refrigerantByName('R-22').liquidDensity(298.15) / 997.95;
  return [
    within(pounds('R-22'), 957.6, 0.005, 'lb of R-22 in 1000 lb of water, by our own density'),
    closeTo((pounds('R-22') * 1.197) / gravity, 957.6, 0.06, 'the same with the specific gravity of the row'),
  ].map((one) => ({ ...one, what: `${one.what} (${row.cells.item})` }));
}

function legalFill(): Comparison[] {
  return [-40, 0, 25].flatMap((celsius) => [
    between(pounds('R-22', celsius) / 10, 0, 105, '105 at most', `% of the water capacity, R-22, ${celsius} C`),
    between(pounds('R-744', celsius) / 10, 0, 68 + 1e-9, '68 at most', `% of the water capacity, R-744, ${celsius} C`),
  ]);
}

/** Density of the fill over that of the liquid at 55 C: under 1, a cylinder is not liquid full. */
function notFull(): Comparison[] {
  return refrigerantNames
    .filter((name) => name !== 'R-744')
    .flatMap((name) =>
      [-40, 0, 25, 40].map((celsius) => {
        const outcome = callById('CYLINDER.FILL', [name, 1, celsius]);
        const filling = outcome.ok ? Number(outcome.value) / 0.001 : Number.NaN;
        const share = filling / refrigerantByName(name).liquidDensity(328.15);
        return between(
          share,
          0,
          1 + 1e-9,
          '1 at most',
          `part of the cylinder that is liquid at 55 C, ${name}, ${celsius} C`,
        );
      }),
    );
}

function warmShare(name: string): (row: ReferenceRow) => Comparison {
  return (row) => {
    const outcome = callById('CYLINDER.FILL', [name, 20, 25, 'warm share']);
    return near(row, outcome.ok ? Number(outcome.value) / 100 : Number.NaN);
  };
}

/** Grams of vapour in 10 L of air. */
function vapourInAir(celsius: number, humidity: number): (row: ReferenceRow) => Comparison {
  const kelvin = celsius + ZERO_CELSIUS;
  return (row) => near(row, 10 * vapourDensity(humidity * saturationPressure(kelvin), kelvin));
}

function airInTenLitres(row: ReferenceRow): Comparison {
  const { specificGasConstant, temperature } = gasState('air', 293.15);
  return near(row, (101_325 * 0.01 * 1000) / (specificGasConstant * temperature));
}

/** Three cycles at 1000 micron broken to the atmosphere leave (p_vac/p_break)^n. */
function dilution(): Comparison[] {
  const cycle = {
    pullTo: 1000 * (101_325 / 760e3),
    fill: { to: 101_325, gas: NITROGEN, supply: 3e5, wait: 0 },
  };
  const system = { volume: 0.02, water: 0, heat: 0, start: 101_325 };
  const { events } = runPlan(gearFor(WIDE), system, [cycle, cycle, cycle]);
  const left = (events.at(-1)?.end.first ?? Number.NaN) / 101_325;
  return [
    closeTo(left, 2.3e-9, 0.05e-9, 'part of the first gas left, as the note of the row says it'),
    within(left, (1 / 760) ** 3, 1e-9, 'the formula of the row by hand'),
  ];
}

const PUMPS = libraryParts.filter(({ kind }) => kind === 'pump');

const CHECKS: readonly RowCheck[] = [
  [/^(EV-0[12347]|HO-0[123469]|ME-0[14])$/, level],
  [/^EPA-(0\d|10)$/, tableOne],
  ...byId({
    'EV-06': aboutLevel,
    'HO-07': () => closeTo(toSI('5 torr', 'pressure', 'Pa', 'start'), 667, 0.5, 'Pa, of 5 torr'),
    'EPA-11': () => [
      closeTo(Number(target('Pressure', 'low pressure', '400 lb', 'before')), 3333, 0.5, 'Pa, an old machine'),
      closeTo(Number(target('Pressure', 'low pressure', '400 lb', 'after')), 3333, 0.5, 'Pa, a later machine'),
    ],
    'EPA-12': () => [
      closeTo(Number(targets('Pressure', 'R-134a', '250 lb')[1]), 101_325, 0, 'Pa, in a row below'),
      same(String(targets('Level', 'R-134a', '250 lb')[1]), '0 psig', 'level'),
    ],
    'EPA-13': smallAppliance('running'),
    'EPA-14': smallAppliance('not running'),
    'EPA-15': () => [
      same(String(targets('Share of charge', 'small appliance', '5 lb')), '90,80', '5 lb is a small appliance'),
      same(String(target('Share of charge', 'small appliance', '5.1 lb')), '#VALUE!', '5.1 lb is none'),
    ],
    'EPA-17': () =>
      CLASSES.map(([name, words]) =>
        same(String(target('Case', name, 1)).replace(/ pressure.*$/u, ''), words, `class of ${name}`),
      ),
    'CY-01': fillLimit,
    'CY-02': () => [
      between(pounds('R-22'), 800, Number.MAX_VALUE, 'over 800', 'lb of R-22, denser than water'),
      between(pounds('R-32'), 0, 800, 'under 800', 'lb of R-32, lighter than water'),
      between(pounds('R-290'), 0, 800, 'under 800', 'lb of R-290, lighter than water'),
    ],
    'CY-03': legalFill,
    'CY-04': notFull,
    'CY-05': warmShare('R-22'),
    'CY-06': warmShare('R-410A'),
    'CY-07': warmShare('R-134a'),
    'CY-08': warmShare('R-32'),
    'LD-01': vapourInAir(25, 0.5),
    'LD-02': vapourInAir(30, 0.6),
    'LD-03': vapourInAir(35, 0.8),
    'LD-04': airInTenLitres,
    'ME-06': dilution,
    'PU-01': () => PUMPS.map(({ name, ultimate = 0 }) => between(ultimate, 2 / 2, 3 * 2, '2 to 3', `Pa, ${name}`)),
    'PU-07': () => {
      const speeds = PUMPS.map(({ speed = 0 }) => speed * 1000);
      return [
        closeTo(Math.min(...speeds), 0.944, 5e-4, 'L/s, the smallest pump of the library'),
        closeTo(Math.max(...speeds), 5.663, 5e-4, 'L/s, the largest'),
      ];
    },
    'PU-08': () =>
      PUMPS.map(({ name, waterLimit = 0 }) =>
        between(waterLimit / 100, 10, 40, '10 to 40', `mbar of water vapour, as an order of magnitude, ${name}`),
      ),
  }),
];

const list = (prefix: string, from: number, to: number, reason: string): Readonly<Record<string, string>> =>
  Object.fromEntries(
    Array.from({ length: to - from + 1 }, (_, i) => [`${prefix}-${String(from + i).padStart(2, '0')}`, reason]),
  );

const SEQUENCE = 'a sequence of nitrogen breaks with no time or result to compare';

export const practice = account('practice', CHECKS, {
  'EPA-16': 'a passive device: the rule gives it no level of its own',
  ...list('RT', 1, 2, 'how recovery machines are tested: no function computes it'),
  'LR-01': 'leak repair triggers: no function computes them',
  'EV-05': 'in Pa, with nothing to convert: an input',
  'EV-08': 'a rule in words; the boiling points that it needs are rows TB of the water file',
  'HO-05': 'bands read off a chart by eye; HOLD.READ tells leak from moisture by the law of the rise, not by bands',
  'HO-08': 'a limit for one machine, without its volume: an input of a hold test',
  'ME-02': SEQUENCE,
  'ME-03': SEQUENCE,
  'ME-05': SEQUENCE,
  ...list('PT', 1, 5, 'pressure test: no function computes it; the cautions carry what is to be heeded'),
  'CY-09': 'the colour of a cylinder: nothing to compute',
  ...list('CG', 1, 2, 'charging and brazing practice: words, nothing to compute'),
  ...list('LD', 5, 7, 'moisture loads are inputs, never computed'),
  ...list('OG', 1, 8, 'outgassing rates are inputs, never computed'),
  'PU-02': 'single-stage pump: none in the library',
  'PU-03': 'laboratory pump: none in the library',
  'PU-04': 'diaphragm pump: none in the library',
  'PU-05': 'scroll pump: none in the library',
  'PU-06': 'a compressor is no vacuum pump: the cautions say so',
});
