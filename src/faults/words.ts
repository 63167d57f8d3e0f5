import type { Issue, Place } from './issue.ts';

/** What is wrong, and what to do about it; `what` says the argument, what was found and what is allowed. */
export interface Words {
  readonly what: string;
  readonly todo: string;
}

const MOST_WRITTEN_OUT = 1e9;

/** Numbers as people read them: six digits at most, no trailing noise, long ones with an exponent. */
export function shortNumber(value: number): string {
  if (!Number.isFinite(value)) return String(value);
  if (value === 0) return '0';
  const rounded = Number(value.toPrecision(6));
  return Math.abs(rounded) < MOST_WRITTEN_OUT ? String(rounded) : rounded.toExponential().replace('e+', 'e');
}

const LONGEST_QUOTE = 60;

function quote(value: unknown): string {
  if (value === null || value === undefined || value === '') return 'blank';
  if (typeof value === 'number') return shortNumber(value);
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  if (Array.isArray(value)) return 'a range';
  if (typeof value === 'object') return 'error' in value ? String(value.error) : 'an object';
  const text = String(value);
  return `"${text.length > LONGEST_QUOTE ? `${text.slice(0, LONGEST_QUOTE)}…` : text}"`;
}

const LONGEST_LIST = 40;

function list(names: readonly string[]): string {
  const shown = names.slice(0, LONGEST_LIST).join(', ');
  return names.length > LONGEST_LIST ? `${shown} and ${names.length - LONGEST_LIST} more` : shown;
}

const CLOSEST = 8;

function pairs(text: string): Set<string> {
  const plain = ` ${text.toLowerCase()} `;
  return new Set(Array.from({ length: plain.length - 1 }, (_, i) => plain.slice(i, i + 2)));
}

/** The names that share most pairs of letters with the text (Dice's coefficient). */
function closest(text: string, names: readonly string[]): readonly string[] {
  const own = pairs(text.slice(0, LONGEST_QUOTE));
  const scored = names.map((name) => {
    const theirs = pairs(name);
    let shared = 0;
    for (const pair of theirs) if (own.has(pair)) shared += 1;
    return { name, score: (2 * shared) / (own.size + theirs.size) };
  });
  return scored
    .sort((a, b) => b.score - a.score)
    .slice(0, CLOSEST)
    .map(({ name }) => name);
}

/** Days since 30 December 1899, by which sheets count dates; the years 2000 to 2099. */
const FIRST_DATE = 36_526;
const LAST_DATE = 73_050;
const ZERO_DATE = Date.UTC(1899, 11, 30);
const DAY_MS = 86_400_000;

/** The name that begins with the fraction of an inch that a sheet made a date of, such as 3/8 in where 3/8 was typed. */
function takenForDate(value: string, known: readonly string[]): string | undefined {
  const days = Number(value);
  if (!Number.isInteger(days) || days < FIRST_DATE || days > LAST_DATE) return undefined;
  const date = new Date(ZERO_DATE + days * DAY_MS);
  const [month, day] = [date.getUTCMonth() + 1, date.getUTCDate()];
  return known.find((name) => name === `${month}/${day} in`) ?? known.find((name) => name === `${day}/${month} in`);
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function amount(value: number, unit: string): string {
  return unit === '' ? shortNumber(value) : `${shortNumber(value)} ${unit}`;
}

/** The issue in words, in two parts. */
export function wordsOf(issue: Issue): Words {
  switch (issue.kind) {
    case 'limit':
      return {
        what: `${capital(issue.argument)} is ${amount(issue.value, issue.unit)}: it must be ${issue.rule} ${amount(issue.limit, issue.unit)}.`,
        todo: issue.todo ?? `Give a value ${issue.rule} ${amount(issue.limit, issue.unit)}.`,
      };
    case 'not-a-number':
      if (issue.expected === 'a number') {
        return {
          what: `${capital(issue.argument)} is ${quote(issue.value)}: it must be a plain number.`,
          todo: 'Type the number alone, with a decimal point and without a unit.',
        };
      }
      return {
        what: `${capital(issue.argument)} is ${quote(issue.value)}, which is no number: it must be ${issue.expected}.`,
        todo: 'Type a number, or a number and its unit such as "3/8 in" or "500 micron", with a decimal point.',
      };
    case 'not-text':
      return {
        what: `${capital(issue.argument)} is ${quote(issue.value)}: it must be ${issue.expected}.`,
        todo: issue.expected.includes('number') ? 'Type a number, or text with a unit.' : 'Type it as text.',
      };
    case 'unit':
      return {
        what: `${capital(issue.argument)} has the unit ${quote(issue.unit)}, which is not a unit of ${issue.quantity}.`,
        todo: `Use one of: ${list(issue.known)}.`,
      };
    case 'missing':
      return { what: `${capital(issue.argument)} is blank: it is needed.`, todo: `Fill in ${issue.argument}.` };
    case 'unknown': {
      const fraction = takenForDate(issue.value, issue.known);
      return {
        what: `There is no ${issue.what} ${quote(issue.value)}.`,
        todo:
          fraction !== undefined
            ? `It may be ${fraction.replace(/ .*/, '')} that the sheet took for a date: type it with its unit, ${fraction}.`
            : issue.known.length === 0
              ? `There is no ${issue.what} to choose from yet.`
              : issue.known.length > LONGEST_LIST
                ? `Close to it: ${closest(issue.value, issue.known).join(', ')}; there are ${issue.known.length} in all.`
                : `Use one of: ${list(issue.known)}.`,
      };
    }
    case 'missing-header':
      return {
        what: `The ${issue.table} table has no column ${quote(issue.header)}: found ${issue.found.length === 0 ? 'no headers' : list(issue.found)}.`,
        todo: `Add a column with the header ${issue.header} in the first row of the range.`,
      };
    case 'duplicate-header':
      return {
        what: `The ${issue.table} table has more than one column for ${quote(issue.header)}.`,
        todo: 'Remove or rename one of them.',
      };
    case 'empty-table':
      return {
        what: `The ${issue.table} table has no rows.`,
        todo: 'Give a range whose first row is headers, with at least one filled row below.',
      };
    case 'too-many-rows':
      return {
        what: `The ${issue.table} range has ${issue.rows} rows: at most ${issue.limit} are read.`,
        todo: 'Give the filled rows only, not whole columns.',
      };
    case 'order':
      return {
        what: `${capital(issue.upper)} is ${amount(issue.upperValue, issue.unit)} and ${issue.lower} is ${amount(issue.lowerValue, issue.unit)}: ${issue.upper} must be above ${issue.lower}.`,
        todo: `Exchange them, or correct one.`,
      };
    case 'out-of-reach':
      return {
        what: `The target of ${shortNumber(issue.targetPa)} Pa is out of reach: this rig gets to ${shortNumber(issue.lowestPa)} Pa at the lowest, because ${issue.because}.`,
        todo: 'Set a higher target, or change what holds the rig back.',
      };
    case 'no-pump':
      return {
        what: `The rig ${quote(issue.rig)} must begin with a pump or machine, and have only one.`,
        todo: 'Put one row of kind pump (or machine) first, then the parts in order from the pump to the system.',
      };
    case 'no-solution':
      return { what: `${capital(issue.reason)}.`, todo: issue.todo };
    case 'cell-error':
      return {
        what: `${capital(issue.argument)} holds the error ${issue.code}.`,
        todo:
          issue.code === '#NAME?'
            ? 'A name is not known: check its spelling, and put text between straight quotes, as in "3/8 in".'
            : 'Correct the cell that it comes from.',
      };
    case 'model-range':
      return {
        what: `${capital(issue.argument)} is ${amount(issue.value, issue.unit)}: ${issue.model} holds from ${amount(issue.min, issue.unit)} to ${amount(issue.max, issue.unit)}.`,
        todo: 'Stay within that range.',
      };
    case 'arguments':
      return {
        what: `${issue.function} was given ${issue.given} arguments: it takes ${issue.most} at most.`,
        todo: 'Remove the arguments at the end.',
      };
    case 'wrong':
      return {
        what: `${capital(issue.argument)} is ${issue.found}: allowed is ${issue.allowed}.`,
        todo: issue.todo,
      };
    case 'not-finite':
      return {
        what: `${issue.function} has no finite answer for these values.`,
        todo: 'Check the order of magnitude of each value and its unit.',
      };
    case 'internal':
      return {
        what: 'Narrows could not work this out because of a fault of its own.',
        todo: `Please report it with the formula: ${issue.detail}`,
      };
  }
}

/**
 * `Parts, row 4 of the range, column Bore`. The range may begin anywhere on its sheet, so the words say what is counted;
 * a host that knows where it stands puts the address in their place with `withAddresses`.
 */
export function placeWords(place: Place): string {
  const row = place.row === undefined ? '' : `, row ${place.row} of the range`;
  const column = place.column === undefined ? '' : `, column ${place.column}`;
  return `${capital(place.table)}${row}${column}`;
}

/** The issue as one line: where, what is wrong, what to do. */
export function issueWords(issue: Issue, place?: Place): string {
  const { what, todo } = wordsOf(issue);
  // the limit already says what to do
  const advice = issue.kind === 'limit' && issue.todo === undefined ? '' : ` ${todo}`;
  const where = place === undefined ? '' : `${placeWords(place)}: `;
  return `${where}${what}${advice}`;
}
