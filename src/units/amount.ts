/** Number-and-unit text as people write it. Knows spelling, not what a unit is worth. */

export interface AmountPart {
  readonly value: number;
  /** '' when the text gives none */
  readonly unit: string;
  /** written as a fraction: 3/8, 1 1/8 */
  readonly fraction: boolean;
}

const VULGAR: ReadonlyMap<string, string> = new Map([
  ['½', '1/2'],
  ['¼', '1/4'],
  ['¾', '3/4'],
  ['⅛', '1/8'],
  ['⅜', '3/8'],
  ['⅝', '5/8'],
  ['⅞', '7/8'],
  ['⅓', '1/3'],
  ['⅔', '2/3'],
]);

/** One spelling for signs that keyboards and word processors vary. */
export function plainText(text: string): string {
  return text
    .replace(/[\u00a0\u2000-\u200a\u202f]/gu, ' ')
    .replace(/[−–]/gu, '-')
    .replace(/[½¼¾⅛⅜⅝⅞⅓⅔]/gu, (sign) => ` ${VULGAR.get(sign) ?? sign}`)
    .replace(/⁄/gu, '/')
    .replace(/[µμ]/gu, 'u')
    .replace(/²/gu, '2')
    .replace(/³/gu, '3')
    .replace(/[″“”]/gu, '"')
    .replace(/[′‘’]/gu, "'")
    .replace(/°/gu, '')
    .trim();
}

/** whole and fraction (1 1/8), fraction (3/8), or a decimal number */
const NUMBER = /^([+-]?)(?:(\d+)[ -]+(\d+)\/(\d+)|(\d+)\/(\d+)|((?:\d+(?:[.,]\d*)*|[.,]\d+)(?:e[+-]?\d+(?![\d.]))?))/iu;
/** hours:minutes or hours:minutes:seconds */
const CLOCK = /^(\d+):([0-5]\d)(?::([0-5]\d(?:\.\d+)?))?$/u;
/** the letters or inch and foot signs that end one part of a compound amount */
const SHORT_UNIT = /^([a-z]+|["']{1,2})/iu;

/**
 * A decimal number that may be written with a decimal comma; NaN for what is no number. `1,500` can mean two things and is
 * not taken; `1,5`, `0,500` and `1,000,000` can mean only one.
 */
function decimal(text: string): number {
  const comma = text.indexOf(',');
  if (comma < 0) return Number(text);
  const grouped = text.includes('.') ? /^\d{1,3}(,\d{3})+\.\d*$/u : /^\d{1,3}(,\d{3}){2,}$/u;
  if (grouped.test(text)) return Number(text.replace(/,/gu, ''));
  const [whole, rest] = [text.slice(0, comma), text.slice(comma + 1)];
  const ambiguous = /^\d{3}$/u.test(rest) && whole !== '' && !/^0+$/u.test(whole);
  return ambiguous ? Number.NaN : Number(`${whole}.${rest}`);
}

interface Taken {
  readonly value: number;
  readonly fraction: boolean;
  readonly rest: string;
  readonly minus: boolean;
}

function takeNumber(text: string): Taken | undefined {
  const match = NUMBER.exec(text);
  if (match === null) return undefined;
  const [all, sign, whole, top, bottom, onlyTop, onlyBottom, plain] = match;
  let value: number;
  if (plain !== undefined) value = decimal(plain);
  else if (top !== undefined) value = Number(whole) + Number(top) / Number(bottom);
  else value = Number(onlyTop) / Number(onlyBottom);
  if (!Number.isFinite(value)) return undefined;
  const minus = sign === '-';
  return { value: minus ? -value : value, fraction: plain === undefined, rest: text.slice(all.length).trim(), minus };
}

/**
 * Splits `5 ft 6 in` into its parts. `isUnit` says which names the wanted quantity knows: a unit that is known as a whole
 * (`m3/h`, `inHg vac`) is never split. Gives undefined when the text does not begin with a number or cannot be read.
 */
export function parseAmount(text: string, isUnit: (name: string) => boolean): readonly AmountPart[] | undefined {
  const clean = plainText(text);
  const clock = CLOCK.exec(clean);
  if (clock !== null) {
    if (!isUnit('min')) return undefined;
    const minutes = Number(clock[1]) * 60 + Number(clock[2]) + Number(clock[3] ?? 0) / 60;
    return [{ value: minutes, unit: 'min', fraction: false }];
  }
  const first = takeNumber(clean);
  if (first === undefined) return undefined;
  const { value, fraction, rest } = first;
  const whole = [{ value, fraction, unit: rest }];
  return isUnit(rest) ? whole : (compound(first, isUnit) ?? whole);
}

function compound(first: Taken, isUnit: (name: string) => boolean): readonly AmountPart[] | undefined {
  const parts: AmountPart[] = [];
  // a minus sign in front of the first part holds for all of them, where that part is 0 as well
  const sign = first.minus ? -1 : 1;
  let part = first;
  for (;;) {
    const unit = SHORT_UNIT.exec(part.rest)?.[1];
    if (unit === undefined || !isUnit(unit)) return undefined;
    parts.push({ value: parts.length === 0 ? part.value : sign * part.value, unit, fraction: part.fraction });
    const rest = part.rest.slice(unit.length).trim();
    if (rest === '') return parts;
    const next = takeNumber(rest);
    if (next === undefined || next.minus) return undefined;
    part = next;
  }
}
