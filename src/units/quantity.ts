import { raise } from '../faults/issue.ts';
import { parseAmount, plainText } from './amount.ts';
import { type Quantity, UNITS, type Unit } from './table.ts';

export type { Quantity } from './table.ts';

/** A number as somebody wrote it, with the unit it was written in, and the same in SI. */
export interface Reading {
  readonly si: number;
  readonly value: number;
  readonly unit: string;
}

/** `Pa·m³/s`, `Pa m^3/s` and `Pa m3/s` are one name. */
function keyOf(name: string): string {
  return name.replace(/[\s.()[\]^*·⋅×_]/gu, '');
}

interface UnitIndex {
  readonly exact: ReadonlyMap<string, Unit>;
  /** without regard to case; names that differ by case alone (mPa, MPa) are left out */
  readonly folded: ReadonlyMap<string, Unit>;
  readonly shown: readonly string[];
}

function indexOf(units: readonly Unit[]): UnitIndex {
  const exact = new Map<string, Unit>();
  const folded = new Map<string, Unit>();
  const ambiguous = new Set<string>();
  for (const unit of units) {
    for (const name of unit.names) {
      const key = keyOf(name);
      if (!exact.has(key)) exact.set(key, unit);
      const fold = key.toLowerCase();
      const other = folded.get(fold);
      if (other !== undefined && other !== unit) ambiguous.add(fold);
      else folded.set(fold, unit);
    }
  }
  for (const fold of ambiguous) folded.delete(fold);
  return { exact, folded, shown: units.flatMap((unit) => unit.names.slice(0, 1)) };
}

export const quantities = Object.keys(UNITS) as readonly Quantity[];

const INDEX = Object.fromEntries(quantities.map((quantity) => [quantity, indexOf(UNITS[quantity])])) as Readonly<
  Record<Quantity, UnitIndex>
>;

export function isQuantity(name: string): name is Quantity {
  return Object.hasOwn(INDEX, name);
}

/** Names of a quantity's units as messages list them. */
export function knownUnits(quantity: Quantity): readonly string[] {
  return INDEX[quantity].shown;
}

function findUnit(name: string, quantity: Quantity): Unit | undefined {
  const { exact, folded } = INDEX[quantity];
  const byKey = (key: string): Unit | undefined => exact.get(key) ?? folded.get(key.toLowerCase());
  // the second spelling is that of µm, m² and °F
  return byKey(keyOf(name)) ?? byKey(keyOf(plainText(name)));
}

export function isUnit(name: string, quantity: Quantity): boolean {
  return findUnit(name, quantity) !== undefined;
}

function needUnit(name: string, quantity: Quantity, argument: string): Unit {
  return (
    findUnit(name, quantity) ?? raise({ kind: 'unit', argument, unit: name, quantity, known: knownUnits(quantity) })
  );
}

/** Whether a unit counts from elsewhere than nothing, as gauge pressures do: not for differences. */
export function countsFromElsewhere(unit: string, quantity: Quantity): boolean {
  return findUnit(unit, quantity)?.offset !== undefined;
}

/** SI value of a number in a named unit. */
export function fromUnit(value: number, unit: string, quantity: Quantity, argument: string = quantity): number {
  const found = needUnit(unit, quantity, argument);
  return found.offset === undefined ? value * found.factor : value * found.factor + found.offset;
}

/** The number that stands before `unit` for an SI value. */
export function fromSI(si: number, unit: string, quantity: Quantity, argument: string = quantity): number {
  const found = needUnit(unit, quantity, argument);
  return found.offset === undefined ? si / found.factor : (si - found.offset) / found.factor;
}

/** `fromSI` with the unit looked up once, for whole columns. */
export function scaleFromSI(unit: string, quantity: Quantity): (si: number) => number {
  const { factor, offset = 0 } = needUnit(unit, quantity, quantity);
  return (si) => (si - offset) / factor;
}

/**
 * No quantity that is read is larger in SI: 1e9 Pa, m3, s and so on are far beyond anything that is pumped, and keep the
 * sums of the engine finite.
 */
export const LARGEST_SI = 1e9;

/**
 * Reads a cell as a quantity. A bare number, or text without a unit, is in `defaultUnit`; text may carry its own unit and
 * may be compound (`5 ft 6 in`, `1 h 30 min`, `1:30` for a time).
 *
 * Raises `not-a-number` for what holds no number, `limit` above `LARGEST_SI`, `wrong` for a bare fraction where the default unit is metric, `unit` for a unit that the quantity does not have.
 */
export function readQuantity(value: unknown, quantity: Quantity, defaultUnit: string, argument: string): Reading {
  const reading = readAnyQuantity(value, quantity, defaultUnit, argument);
  if (Math.abs(reading.si) <= LARGEST_SI) return reading;
  const { unit } = reading;
  const [rule, bound] = reading.si > 0 ? (['at most', LARGEST_SI] as const) : (['at least', -LARGEST_SI] as const);
  return raise({ kind: 'limit', argument, value: reading.value, rule, limit: fromSI(bound, unit, quantity), unit });
}

function readAnyQuantity(value: unknown, quantity: Quantity, defaultUnit: string, argument: string): Reading {
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) return notANumber(value, quantity, defaultUnit, argument);
    return { si: fromUnit(value, defaultUnit, quantity, argument), value, unit: defaultUnit };
  }
  if (typeof value !== 'string') return notANumber(value, quantity, defaultUnit, argument);
  const parts = parseAmount(value, (name) => isUnit(name, quantity)) ?? [];
  const [first, second] = parts;
  if (first === undefined) return notANumber(value, quantity, defaultUnit, argument);
  if (second === undefined) {
    const unit = first.unit === '' ? defaultUnit : first.unit;
    if (first.unit === '' && first.fraction && quantity === 'length' && METRIC_LENGTHS.has(defaultUnit)) {
      // a fraction of a millimetre is never what was meant
      const todo = `Write "${value.trim()} in", or a decimal number.`;
      raise({ kind: 'wrong', argument, found: `"${value.trim()}"`, allowed: 'a fraction with its unit', todo });
    }
    return { si: fromUnit(first.value, unit, quantity, argument), value: first.value, unit };
  }
  let si = 0;
  for (const part of parts) si += fromUnit(part.value, part.unit, quantity, argument);
  return { si, value: fromSI(si, first.unit, quantity), unit: first.unit };
}

const METRIC_LENGTHS: ReadonlySet<string> = new Set(['m', 'cm', 'mm', 'um']);

function notANumber(value: unknown, quantity: Quantity, unit: string, argument: string): never {
  return raise({ kind: 'not-a-number', argument, value, expected: `a ${quantity} in ${unit}, or text with a unit` });
}

/** SI value of a cell; see `readQuantity`. */
export function toSI(value: unknown, quantity: Quantity, defaultUnit: string, argument: string): number {
  return readQuantity(value, quantity, defaultUnit, argument).si;
}

/** Quantities that know a unit, in the order of the table. */
export function quantitiesOf(unit: string): readonly Quantity[] {
  return quantities.filter((quantity) => isUnit(unit, quantity));
}

/**
 * `value` in unit `to`, given in unit `from`. The quantity is the first that knows both units.
 *
 * Raises `unknown` for a unit that nothing knows, `unit` for two units of different quantities, `limit` for a pressure or
 * temperature below absolute zero.
 */
export function convert(value: number, from: string, to: string): number {
  const ofFrom = quantitiesOf(from);
  const [first] = ofFrom;
  if (first === undefined) raise({ kind: 'unknown', what: 'unit', value: from, known: allUnits() });
  if (quantitiesOf(to).length === 0) raise({ kind: 'unknown', what: 'unit', value: to, known: allUnits() });
  const shared = ofFrom.find((quantity) => isUnit(to, quantity));
  if (shared === undefined)
    raise({ kind: 'unit', argument: 'to', unit: to, quantity: first, known: knownUnits(first) });
  const si = fromUnit(value, from, shared);
  // nothing is colder than absolute zero, and no vacuum is better than none at all
  if (ABSOLUTE.has(shared) && si < 0) {
    raise({ kind: 'limit', argument: 'value', value, rule: 'at least', limit: fromSI(0, from, shared), unit: from });
  }
  const [given, wanted] = [needUnit(from, shared, from), needUnit(to, shared, to)];
  const zeros = Math.max(Math.abs(given.offset ?? 0), Math.abs(wanted.offset ?? 0));
  const result = fromSI(si, to, shared);
  return zeros === 0 ? result : roundedBeside(result, Math.max(zeros, Math.abs(si)) / wanted.factor);
}

/** Digits that a double holds without fail, as in every spreadsheet. */
const SURE_DIGITS = 15;

/** A difference of numbers as large as `size` without the noise below their last sure digit: 20 C is 68 F, not 67.9999999999999. */
function roundedBeside(value: number, size: number): number {
  const decimals = SURE_DIGITS - Math.ceil(Math.log10(Math.abs(size)));
  return decimals >= 0 ? Number(value.toFixed(decimals)) : value;
}

const ABSOLUTE: ReadonlySet<Quantity> = new Set<Quantity>(['pressure', 'temperature']);

function allUnits(): readonly string[] {
  return [...new Set(quantities.flatMap((quantity) => knownUnits(quantity)))];
}
