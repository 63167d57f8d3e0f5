import { around } from './engine-arrays.ts';
import { isReference, type NodeValue } from './seams.ts';
import type { Injector, UniverModules } from './univer.ts';
import { errorValue } from './values.ts';
import { TOO_LARGE_MULTIPLE, tooMuchWorkWords } from './words.ts';

/** Steps of one call of a function: some seconds of work. */
export const MOST_STEPS = 200_000_000;
/** Pairs of cells that one call of a look-up may compare: each costs far more than a step of arithmetic. */
export const MOST_PAIRS = 20_000_000;
/** Steps that a function goes through one by one for a count it is given, such as days or trials; each costs more. */
export const MOST_COUNTED = 10_000_000;
/** Calls of LAMBDAs for one formula. */
export const MOST_LAMBDA_CALLS = 1_000_000;
/** Cells that one reference may have gone through. */
export const MOST_READ = 50_000_000;

/** Functions that count up to an argument: where those arguments stand. */
const counters: Readonly<Record<string, readonly number[]>> = {
  'BINOM.DIST': [1],
  BINOMDIST: [1],
  'BINOM.DIST.RANGE': [0],
  'BINOM.INV': [0],
  CRITBINOM: [0],
  'HYPGEOM.DIST': [0, 1, 2, 3],
  HYPGEOMDIST: [0, 1, 2, 3],
  'NEGBINOM.DIST': [0, 1],
  NEGBINOMDIST: [0, 1],
  'POISSON.DIST': [0],
  POISSON: [0],
  WORKDAY: [1],
  'WORKDAY.INTL': [1],
  VDB: [2, 3, 4],
  DB: [2, 3],
  CUMPRINC: [1, 4],
  CUMIPMT: [1, 4],
  'GAMMA.DIST': [1],
  GAMMADIST: [1],
  'GAMMA.INV': [1],
  GAMMAINV: [1],
  'CHISQ.DIST': [1],
  'CHISQ.DIST.RT': [1],
  CHIDIST: [1],
  'CHISQ.INV': [1],
  'CHISQ.INV.RT': [1],
  CHIINV: [1],
  BESSELI: [1],
  BESSELJ: [1],
  BESSELK: [1],
  BESSELY: [1],
};

/** Functions that go through one array for every cell of another: where the two stand. */
const pairs: Readonly<Record<string, readonly [number, number]>> = {
  MATCH: [0, 1],
  XMATCH: [0, 1],
  XLOOKUP: [0, 1],
  LOOKUP: [0, 1],
  VLOOKUP: [0, 1],
  HLOOKUP: [0, 1],
  COUNTIF: [0, 1],
  SUMIF: [0, 1],
  AVERAGEIF: [0, 1],
  COUNTIFS: [0, 1],
  SUMIFS: [0, 2],
  AVERAGEIFS: [0, 2],
  MAXIFS: [0, 2],
  MINIFS: [0, 2],
  FREQUENCY: [0, 1],
  IRR: [0, 1],
  ARRAYTOTEXT: [0, 1],
};

interface Size {
  readonly rows: number;
  readonly columns: number;
}

function sizeOf(value: NodeValue | undefined): Size {
  if (value === undefined) return { rows: 1, columns: 1 };
  if (!isReference(value) && !value.isArray()) return { rows: 1, columns: 1 };
  const sized = value as unknown as { getRowCount(): number; getColumnCount(): number };
  return { rows: sized.getRowCount(), columns: sized.getColumnCount() };
}
const cellsOf = (value: NodeValue | undefined): number => {
  const { rows, columns } = sizeOf(value);
  return rows * columns;
};

/** The size of the number that an argument holds; of a table, the sum of them all. */
function numberOf(value: NodeValue | undefined): number {
  if (value === undefined) return 0;
  const read = isReference(value) ? value.getFirstCell() : value;
  const sizeOfNumber = (cell: { getValue(): unknown } | null | undefined): number => {
    const number = Math.abs(Number(cell?.getValue()));
    return Number.isFinite(number) ? number : 0;
  };
  if (!read.isArray()) return sizeOfNumber(read);
  let sum = 0;
  for (let row = 0; row < read.getRowCount(); row++)
    for (let column = 0; column < read.getColumnCount(); column++) sum += sizeOfNumber(read.get(row, column));
  return sum;
}

type Steps = (args: readonly NodeValue[]) => number;

const cellsOfAll = (values: readonly NodeValue[]): number => values.reduce((sum, value) => sum + cellsOf(value), 0);

/** Functions that go through all that follows for every cell of one argument. */
const followers: Readonly<Record<string, Steps>> = {
  TEXTJOIN: ([, ignoreEmpty, ...texts]) => cellsOf(ignoreEmpty) * cellsOfAll(texts),
  NPV: ([rate, ...values]) => cellsOf(rate) * cellsOfAll(values),
};

/** Steps of products, inverses and determinants of tables: the cube of their size. */
const products: Readonly<Record<string, Steps>> = {
  MMULT: ([a, b]) => cellsOf(a) * sizeOf(b).columns,
  MINVERSE: ([a]) => cellsOf(a) * sizeOf(a).rows,
  MDETERM: ([a]) => cellsOf(a) * sizeOf(a).rows,
};

/** The least common multiple of all numbers among the arguments, or the first one on the way that a cell cannot hold. */
function commonMultiple(args: readonly NodeValue[]): number {
  let multiple = 1;
  const take = (value: unknown): void => {
    const number = Math.floor(Math.abs(Number(value)));
    if (!(number > 0) || multiple > Number.MAX_SAFE_INTEGER) return;
    if (number > Number.MAX_SAFE_INTEGER) {
      multiple = number;
      return;
    }
    let [a, b] = [multiple, number];
    while (b > 0) [a, b] = [b, a % b];
    multiple = (multiple / a) * number;
  };
  for (const arg of args) {
    if (isReference(arg) || !arg.isArray()) take(isReference(arg) ? undefined : arg.getValue());
    else
      for (let row = 0; row < arg.getRowCount(); row++)
        for (let column = 0; column < arg.getColumnCount(); column++) take(arg.get(row, column)?.getValue());
  }
  return multiple;
}

interface LambdaSeam {
  execute(...args: unknown[]): unknown;
}
interface ReferenceSeam {
  getRangePosition(): { startRow: number; endRow: number; startColumn: number; endColumn: number };
  iterator(visit: (...args: unknown[]) => unknown): unknown;
}

const lambda = { calls: 0 };
const patched = new WeakSet<object>();

/**
 * Formulas that would go on for hours are refused in words before they begin, or, where only LAMBDAs know how often they call each
 * other, when they have used up their share. No engine can stop a function once it runs.
 */
export function guardWork({ engine }: UniverModules, injector: Injector): void {
  const functions = injector.get(engine.IFunctionService);
  const limit = (name: string, most: number, steps: Steps): void =>
    around(functions, name, (work) => (...args) => {
      const wanted = steps(args);
      return wanted > most ? errorValue(engine, '#NUM!', tooMuchWorkWords(name, wanted, most)) : work(...args);
    });
  for (const [name, places] of Object.entries(counters))
    limit(name, MOST_COUNTED, (args) => Math.max(...places.map((at) => numberOf(args[at]))));
  for (const [name, [a, b]] of Object.entries(pairs))
    limit(name, MOST_PAIRS, (args) => cellsOf(args[a]) * cellsOf(args[b]));
  for (const [name, steps] of Object.entries(followers)) limit(name, MOST_PAIRS, steps);
  for (const [name, steps] of Object.entries(products)) limit(name, MOST_STEPS, steps);
  // the engine's own goes round for ever once a multiple has outgrown the numbers there are
  around(functions, 'LCM', (work) => (...args) => {
    const tooLarge = commonMultiple(args) > Number.MAX_SAFE_INTEGER;
    return tooLarge ? errorValue(engine, '#NUM!', TOO_LARGE_MULTIPLE) : work(...args);
  });

  const runtime = injector.get(engine.IFormulaRuntimeService) as unknown as { setCurrent(...args: unknown[]): void };
  const setCurrent = runtime.setCurrent.bind(runtime);
  runtime.setCurrent = (...args) => {
    lambda.calls = 0;
    setCurrent(...args);
  };

  const called = engine.LambdaValueObjectObject.prototype as unknown as LambdaSeam;
  if (patched.has(called)) return;
  patched.add(called);
  const execute = called.execute;
  called.execute = function (this: LambdaSeam, ...args) {
    if (++lambda.calls > MOST_LAMBDA_CALLS) throw new Error(`more than ${MOST_LAMBDA_CALLS} calls of LAMBDA`);
    return execute.apply(this, args);
  };

  const reference = engine.BaseReferenceObject.prototype as unknown as ReferenceSeam;
  const iterate = reference.iterator;
  reference.iterator = function (this: ReferenceSeam, visit) {
    const { startRow, endRow, startColumn, endColumn } = this.getRangePosition();
    const cells = (endRow - startRow + 1) * (endColumn - startColumn + 1);
    if (cells > MOST_READ) throw new Error(`it reads ${cells} cells, and at most ${MOST_READ} can be`);
    return iterate.call(this, visit);
  };
}
