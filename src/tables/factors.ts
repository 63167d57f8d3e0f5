import type { RiskTarget } from '../engine/estimate/risk.ts';
import { type Spread, spreadOf } from '../engine/estimate/spread.ts';
import type { CellRange } from './cells.ts';
import { type Column, type FaultSink, type OpenTable, openTable, plainName, throwFault } from './table.ts';

/** How far one input of an estimate may be off. */
export interface FactorRow {
  readonly name: string;
  readonly on: RiskTarget;
  readonly spread: Spread;
  /** one draw for the whole project */
  readonly shared: boolean;
  readonly row: number;
}

export interface FactorsTable {
  readonly factors: readonly FactorRow[];
}

const TARGETS = ['water', 'ambient', 'access', 'learning', 'leaks'] as const satisfies readonly RiskTarget[];
const TARGET_BY_NAME: ReadonlyMap<string, RiskTarget> = new Map<string, RiskTarget>([
  ...TARGETS.map((target): [string, RiskTarget] => [target, target]),
  ['moisture', 'water'],
  ['temperature', 'ambient'],
  ['leak', 'leaks'],
]);

/** What is multiplied; the others are added: degrees and minutes. */
const MULTIPLIED: ReadonlySet<RiskTarget> = new Set<RiskTarget>(['water', 'access', 'learning']);
/** Larger numbers are a slip. */
const MOST = 1000;
/** Standard deviation of ln x: at 2 the 90th percentile is 13 times the median. */
const MOST_WIDTH = 2;

export const FACTORS_COLUMNS = {
  factor: { header: 'Factor', synonyms: ['Name'], description: 'your name for it; On where blank' },
  on: {
    header: 'On',
    synonyms: ['Acts on'],
    needed: true,
    description: `what it acts on: ${TARGETS.join(', ')}; one factor on each`,
  },
  low: {
    header: 'Low',
    synonyms: ['P10'],
    quantity: 'number',
    limit: { atLeast: -MOST, atMost: MOST },
    description:
      '10th percentile: a multiple of the row’s water, or of the attended time (access, learning); for ambient °C to be added, for leaks minutes of each unit',
  },
  likely: {
    header: 'Likely',
    synonyms: ['P50', 'Median'],
    quantity: 'number',
    limit: { atLeast: -MOST, atMost: MOST },
    description: '50th percentile; blank beside Spread: 1, or 0 for ambient and leaks',
  },
  high: {
    header: 'High',
    synonyms: ['P90'],
    quantity: 'number',
    limit: { atLeast: -MOST, atMost: MOST },
    description: '90th percentile',
  },
  spread: {
    header: 'Spread',
    synonyms: ['Sigma', 'Standard deviation'],
    quantity: 'number',
    limit: { atLeast: 0, atMost: MOST },
    description: `instead of Low and High: standard deviation of ln x (at most ${MOST_WIDTH}), of °C for ambient, of minutes for leaks`,
  },
  shared: {
    header: 'Shared',
    description: 'yes: one draw for the whole project; no or blank: each kind of unit has its own',
  },
} as const satisfies Record<string, Column>;

type Source = OpenTable<keyof typeof FACTORS_COLUMNS>;

/**
 * Reads a factors table: one row a factor, by three percentiles or by a width. Raises `unknown` for what it acts on, `wrong` for
 * two on one and for Low beside Spread, `missing`, and `limit` for percentiles in the wrong order or a multiple not above 0.
 */
export function readFactors(range: CellRange, sink: FaultSink = throwFault): FactorsTable {
  const table = openTable(range, 'factors', FACTORS_COLUMNS, sink);
  const factors: FactorRow[] = [];
  const taken = new Map<RiskTarget, string>();
  for (let row = 0; row < table.rowCount; row++) {
    const text = table.neededText(row, 'on');
    const name = table.text(row, 'factor') ?? text ?? '';
    const shared = readShared(table, row);
    if (text === undefined) continue;
    const on = TARGET_BY_NAME.get(plainName(text));
    if (on === undefined) {
      table.fault({ kind: 'unknown', what: 'target of a factor', value: text, known: TARGETS }, row, 'on');
      continue;
    }
    const other = taken.get(on);
    if (other !== undefined) {
      const found = `"${on}", on which "${other}" acts`;
      const todo = 'Put both into one factor.';
      table.fault({ kind: 'wrong', argument: 'On', found, allowed: 'one factor on each', todo }, row, 'on');
      continue;
    }
    taken.set(on, name);
    const spread = readSpread(table, row, on);
    if (spread !== undefined) factors.push({ name, on, spread, shared, row: table.rowNumber(row) });
  }
  return { factors };
}

function readSpread(table: Source, row: number, on: RiskTarget): Spread | undefined {
  const kind = MULTIPLIED.has(on) ? 'factor' : 'shift';
  const width = table.number(row, 'spread');
  const likely = table.number(row, 'likely');
  const low = table.number(row, 'low');
  const high = table.number(row, 'high');
  if (!table.blank(row, 'spread')) {
    const beside = (['low', 'high'] as const).find((key) => !table.blank(row, key));
    if (beside !== undefined) {
      const argument = FACTORS_COLUMNS[beside].header;
      const todo = 'Clear Spread, or clear Low and High.';
      table.fault({ kind: 'wrong', argument, found: 'given beside Spread', allowed: 'one of them', todo }, row, beside);
      return undefined;
    }
    if (width === undefined) return undefined;
    if (kind === 'factor' && width > MOST_WIDTH) {
      const issue = { argument: 'Spread', value: width, rule: 'at most', limit: MOST_WIDTH, unit: '' } as const;
      table.fault({ kind: 'limit', ...issue }, row, 'spread');
      return undefined;
    }
    const median = likely ?? (kind === 'factor' ? 1 : 0);
    return soundMedian(table, row, on, median) ? { kind, median, below: width, above: width } : undefined;
  }
  const blank = (['low', 'likely', 'high'] as const).find((key) => table.blank(row, key));
  if (blank !== undefined) {
    table.fault({ kind: 'missing', argument: `${FACTORS_COLUMNS[blank].header}, or Spread,` }, row, blank);
    return undefined;
  }
  if (low === undefined || likely === undefined || high === undefined) return undefined;
  if (low > likely) return limited(table, row, 'low', low, 'at most', likely);
  if (high < likely) return limited(table, row, 'high', high, 'at least', likely);
  if (kind === 'factor' && !(low > 0)) return limited(table, row, 'low', low, 'above', 0);
  if (on === 'leaks' && low < 0) return limited(table, row, 'low', low, 'at least', 0);
  return spreadOf(kind, low, likely, high);
}

function soundMedian(table: Source, row: number, on: RiskTarget, median: number): boolean {
  if (MULTIPLIED.has(on) && !(median > 0)) limited(table, row, 'likely', median, 'above', 0);
  else if (on === 'leaks' && median < 0) limited(table, row, 'likely', median, 'at least', 0);
  else return true;
  return false;
}

function limited(
  table: Source,
  row: number,
  key: 'low' | 'likely' | 'high',
  value: number,
  rule: 'above' | 'at least' | 'at most',
  limit: number,
): undefined {
  table.fault({ kind: 'limit', argument: FACTORS_COLUMNS[key].header, value, rule, limit, unit: '' }, row, key);
}

function readShared(table: Source, row: number): boolean {
  const text = table.text(row, 'shared');
  if (text === undefined) return false;
  const name = plainName(text);
  if (name === 'yes' || name === 'true' || name === '1') return true;
  if (name !== 'no' && name !== 'false' && name !== '0')
    table.fault({ kind: 'unknown', what: 'answer', value: text, known: ['yes', 'no'] }, row, 'shared');
  return false;
}
