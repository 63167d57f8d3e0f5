import { CURVE_TOP } from '../engine/rig/curve.ts';
import { fallingAt, type SpeedPoint } from '../engine/rig/pump.ts';
import { type Issue, raise } from '../faults/issue.ts';
import { parseAmount } from '../units/amount.ts';
import { checkReading, type Limit, limitToSI } from '../units/limit.ts';
import { isUnit, type Reading, readQuantity } from '../units/quantity.ts';
import { PARTS_COLUMNS } from './parts-columns.ts';

/** Speed of a pump against its inlet pressure, as the text of one cell: `1 bar 4 m3/h; 1 mbar 3.6 m3/h; 0.02 mbar 0`. */

const { speedTable: COLUMN, speed: SPEED } = PARTS_COLUMNS;
const ARGUMENT = COLUMN.header;
/** More pairs than this is no curve that somebody read off. */
export const MOST_PAIRS = 100;
/** Pressures that differ by less than this part are one, given twice: 1 mbar and 100 Pa differ by rounding. */
export const SAME_PRESSURE = 1e-6;
/** No pump is asked to pump below a nanopascal; far under what any rig of the trade reaches. */
const PRESSURE_LIMIT: Limit = { above: 0, atLeast: 1e-9, atMost: CURVE_TOP };
const SPEED_LIMIT = limitToSI(SPEED.limit, SPEED.unit, SPEED.quantity);
const NOT_NEGATIVE: Limit = { atLeast: 0 };
const EXAMPLE = '1 bar 4 m3/h; 1 mbar 3.6 m3/h';
const ALLOWED = 'pairs of a pressure and a speed, each with its unit, parted by semicolons or lines';
const TODO = `Write pairs such as "${EXAMPLE}".`;
/** characters of a pair that a message repeats */
const MOST_SHOWN = 60;
/** characters of a pair; every gap of it is tried as the place between its amounts */
const LONGEST_PAIR = 120;

type PairQuantity = 'pressure' | 'volume flow';

interface Pair {
  readonly text: string;
  readonly point: SpeedPoint;
}

/**
 * Reads pairs of inlet pressure and speed, parted by semicolons or line feeds, in any order. Each amount carries its
 * unit, since no header says which of the two a bare number would be in; a speed of 0 needs none. Between the amounts
 * of a pair stands a space, or a comma, a colon or an equals sign.
 *
 * @returns (Pa, m3/s) by rising pressure, at least two
 *
 * Raises `wrong` for a pair that cannot be read, too few or too many of them, two at one pressure, no speed at all, and a
 * throughput that falls as the pressure rises; `limit` for an amount out of its range.
 */
export function readSpeedPairs(text: string): readonly SpeedPoint[] {
  const texts = text
    .split(/[;\n\r]+/u)
    .map((piece) => piece.trim())
    .filter((piece) => piece !== '');
  if (texts.length === 0) raise(unreadable(text));
  if (texts.length > MOST_PAIRS)
    raise(wrong(`${texts.length} pairs`, `at most ${MOST_PAIRS} pairs`, 'Leave some out.'));
  const pairs = texts.map(readPair).sort((a, b) => a.point[0] - b.point[0]);
  if (pairs.length < 2)
    raise(wrong(`one pair, ${shown(text)}`, 'two pairs or more', `Write pairs such as "${EXAMPLE}", or use Speed.`));
  refuseTwoAtOnePressure(pairs);
  refuseFall(pairs);
  return pairs.map(({ point }) => point);
}

function wrong(found: string, allowed: string, todo: string): Issue {
  return { kind: 'wrong', argument: ARGUMENT, found, allowed, todo };
}

function unreadable(text: string): Issue {
  return wrong(`${shown(text)}, which is not a pressure and a speed`, ALLOWED, TODO);
}

function shown(text: string): string {
  return `"${text.length > MOST_SHOWN ? `${text.slice(0, MOST_SHOWN)}…` : text}"`;
}

function refuseTwoAtOnePressure(pairs: readonly Pair[]): void {
  pairs.forEach(({ text, point }, i) => {
    const before = pairs[i - 1];
    if (before === undefined || point[0] > before.point[0] * (1 + SAME_PRESSURE)) return;
    const found = `${shown(before.text)} and ${shown(text)}, two pairs at one pressure`;
    raise(wrong(found, 'one speed at each pressure', 'Take one of the two pairs out.'));
  });
}

function refuseFall(pairs: readonly Pair[]): void {
  if (pairs.every(({ point }) => point[1] === 0))
    raise(wrong('a speed of 0 at every pressure', 'a speed above 0 at the highest pressure', 'Check the speeds.'));
  const at = fallingAt(pairs.map(({ point }) => point));
  if (at === undefined) return;
  const found = `${shown(pairs[at - 1]?.text ?? '')} and ${shown(pairs[at]?.text ?? '')}, between which speed times pressure falls as the pressure rises`;
  raise(
    wrong(found, 'a speed times pressure that never falls', 'Check the two pairs, or give more pairs between them.'),
  );
}

/** An amount that carries its unit, or undefined. */
function amount(text: string, quantity: PairQuantity): Reading | undefined {
  const parts = parseAmount(text, (name) => isUnit(name, quantity));
  if (parts === undefined || !parts.every(({ unit }) => isUnit(unit, quantity))) return undefined;
  return readQuantity(text, quantity, parts[0]?.unit ?? '', ARGUMENT);
}

/** The number of a text that is a number and nothing else. */
function bareNumber(text: string): number | undefined {
  const only = parseAmount(text, () => false)?.[0];
  return only?.unit === '' ? only.value : undefined;
}

function speedOf(text: string): Reading | undefined {
  const reading = amount(text, 'volume flow');
  if (reading !== undefined) return reading;
  return bareNumber(text) === 0 ? { si: 0, value: 0, unit: SPEED.unit } : undefined;
}

/** All ways of cutting a pair in two: units have spaces in them. */
function cuts(text: string): readonly (readonly [string, string])[] {
  return [...text.matchAll(/\s*[:=]\s*|,?\s+/gu)].map(
    ({ index, 0: gap }) => [text.slice(0, index), text.slice(index + gap.length)] as const,
  );
}

function readPair(text: string): Pair {
  if (text.length > LONGEST_PAIR) raise(unreadable(text));
  const ways = cuts(text);
  for (const [left, right] of ways) {
    const pressure = amount(left, 'pressure');
    const speed = pressure && speedOf(right);
    if (pressure === undefined || speed === undefined) continue;
    checkReading(pressure, PRESSURE_LIMIT, 'pressure', ARGUMENT);
    checkReading(speed, speed.si > 0 ? SPEED_LIMIT : NOT_NEGATIVE, 'volume flow', ARGUMENT);
    return { text, point: [pressure.si, speed.si] };
  }
  const is = (side: string, quantity: PairQuantity): boolean => amount(side, quantity) !== undefined;
  const isBare = (side: string): boolean => bareNumber(side) !== undefined;
  const bare = ways.some(
    ([left, right]) =>
      (isBare(left) && (isBare(right) || is(right, 'volume flow'))) || (is(left, 'pressure') && isBare(right)),
  );
  if (bare) return raise(wrong(`${shown(text)}, in which a number has no unit`, ALLOWED, TODO));
  const turned = ways.some(([left, right]) => is(left, 'volume flow') && is(right, 'pressure'));
  return raise(
    turned
      ? wrong(`${shown(text)}, the speed first`, 'a pressure and then the speed at it', 'Exchange the two.')
      : unreadable(text),
  );
}
