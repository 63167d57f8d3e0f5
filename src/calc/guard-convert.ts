import { around, mapped, readOf } from './engine-arrays.ts';
import type { BaseValueObject, NodeValue } from './seams.ts';
import type { Injector, UniverModules } from './univer.ts';
import { errorValue } from './values.ts';

/** name, symbol, other symbols, kind, whether it takes prefixes for powers of 2 and of 10, and its size in the SI unit of its kind */
type Unit = readonly [string, string, readonly string[] | null, string, boolean, boolean, number];

interface ConvertSeam {
  readonly _units: Unit[];
}

const FOOT = 0.3048;
const ATMOSPHERE = 101_325;
const POUND_FORCE = 4.4482216152605;

/** Units that spreadsheets know and the engine does not. Pa and m2; by definition, the inch of mercury aside. */
const MORE_UNITS: readonly Unit[] = [
  ['standard atmosphere', 'atm', ['at'], 'pressure', false, true, ATMOSPHERE],
  ['torr', 'Torr', null, 'pressure', false, false, ATMOSPHERE / 760],
  ['pound-force per square inch', 'psi', null, 'pressure', false, false, POUND_FORCE / (FOOT / 12) ** 2],
  ['pascal', 'p', null, 'pressure', false, true, 1],
  ['square metre', 'm2', ['m^2'], 'area', false, false, 1],
  ['square foot', 'ft2', ['ft^2'], 'area', false, false, FOOT ** 2],
  ['square inch', 'in2', ['in^2'], 'area', false, false, (FOOT / 12) ** 2],
  ['square yard', 'yd2', ['yd^2'], 'area', false, false, (3 * FOOT) ** 2],
  ['square mile', 'mi2', ['mi^2'], 'area', false, false, (5280 * FOOT) ** 2],
];

/** Scales of temperature: size of a degree in K, and zero in K. */
const SCALES = new Map<string, readonly [size: number, zero: number]>(
  Object.entries({
    ...{ C: [1, 273.15], cel: [1, 273.15], K: [1, 0], kel: [1, 0] },
    ...{ F: [5 / 9, 459.67 * (5 / 9)], fah: [5 / 9, 459.67 * (5 / 9)], Rank: [5 / 9, 0], Reau: [1.25, 273.15] },
  }),
);
/** Prefixes that a kelvin may have. */
const PREFIXES = new Map<string, number>(
  Object.entries({ n: 1e-9, u: 1e-6, m: 1e-3, c: 1e-2, d: 0.1, e: 10, da: 10, h: 100, k: 1e3, M: 1e6, G: 1e9 }),
);

function scaleOf(unit: string): readonly [size: number, zero: number] | undefined {
  const size = PREFIXES.get(/^(\w{1,2})(?:K|kel)$/u.exec(unit)?.[1] ?? '');
  return size === undefined ? SCALES.get(unit) : [size, 0];
}

/** Sums of constants such as 273.15 leave digits behind: of up to 1e5 degrees they are no part. */
const LEFT_BEHIND = 1e10;
const clean = (degrees: number): number =>
  Math.abs(degrees) < 1e5 ? Math.round(degrees * LEFT_BEHIND) / LEFT_BEHIND : degrees;

const wordOf = (value: NodeValue | undefined): string => String(readOf(value)?.getValue() ?? '');

/** `CONVERT` of the engine rounds temperatures to hundredths and knows of all pressures only three, and of no square metre. */
export function guardConvert({ engine }: UniverModules, injector: Injector): void {
  const functions = injector.get(engine.IFunctionService);
  const executor = functions.getExecutor('CONVERT') as unknown as ConvertSeam | undefined;
  const known = new Set(executor?._units.map(([, symbol]) => symbol));
  executor?._units.push(...MORE_UNITS.filter(([, symbol]) => !known.has(symbol)));
  around(functions, 'CONVERT', (work) => (given, from, to, ...rest) => {
    const [one, other] = [scaleOf(wordOf(from)), scaleOf(wordOf(to))];
    if (one === undefined || other === undefined) return work(...([given, from, to, ...rest] as NodeValue[]));
    // from the same scale to itself nothing is rounded
    const converted = (degrees: number): number =>
      one === other ? degrees : (degrees * one[0] + one[1] - other[1]) / other[0];
    return mapped(engine, given, (cell) => {
      const held = cell.getValue();
      const degrees = cell.isBoolean() || cell.isError() ? Number.NaN : Number(held ?? 0);
      if (held === '') return errorValue(engine, '#VALUE!', '');
      if (Number.isNaN(degrees)) return work(cell, from as NodeValue, to as NodeValue, ...rest) as BaseValueObject;
      const result = one[1] === other[1] ? converted(degrees) : clean(converted(degrees));
      return engine.NumberValueObject.create(result) as unknown as BaseValueObject;
    });
  });
}
