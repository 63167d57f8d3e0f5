import { createNodeCalculator } from '../../src/calc/node.ts';
import { newWorkbook } from '../../src/workbook/build.ts';
import { readWorkbook } from '../../src/workbook/read.ts';
import { AMBIENT, type BenchRow, partsRange, TARGET } from './common.ts';

const STEPS = 400;
const VOLUME = 20;
const REPEATS = 5;

/** Milliseconds of working out a book with these formulas in column A below the parts table; and its last value. */
async function calculated(formulas: readonly string[]): Promise<{ ms: number; last: unknown }> {
  const parts = partsRange();
  const bytes = await newWorkbook({
    title: 'bench',
    sheets: [
      {
        name: 'Parts',
        cells: {},
        blocks: [{ at: 'A1', rows: parts.map((row) => row.map((cell) => cell as string | number)) }],
      },
      { name: 'Steps', cells: {}, blocks: [{ at: 'A1', rows: formulas.map((formula) => [{ formula }]) }] },
    ],
  });
  const book = await readWorkbook(bytes);
  let ms = Number.POSITIVE_INFINITY;
  let last: unknown;
  for (let i = 0; i < REPEATS; i++) {
    const calculator = createNodeCalculator();
    calculator.load(book.snapshot);
    const start = performance.now();
    await calculator.recalculate();
    ms = Math.min(ms, performance.now() - start);
    const sheet = Object.values(calculator.snapshot().sheets).find(({ name }) => name === 'Steps');
    last = sheet?.cellData?.[formulas.length - 1]?.[0]?.v;
    calculator.dispose();
  }
  return { ms, last };
}

/** A pull-down as one formula, and as a person without it would build it: step by step, a cell a step. */
export async function benchSheet(rows: BenchRow[]): Promise<void> {
  const range = `Parts!$A$1:$G$${partsRange().length}`;
  const one = await calculated([`=NARROWS.EVAC.TIME(${VOLUME},${range},"rig 0",{"Target","${TARGET} Pa"})`]);
  // equal steps of ln(p): t += V dlnp / S(p) at the middle of the step
  const fall = Math.log(AMBIENT / TARGET) / STEPS;
  const stepwise = await calculated(
    Array.from({ length: STEPS }, (_, i) => {
      const pressure = AMBIENT * Math.exp(-(i + 0.5) * fall);
      const before = i === 0 ? '' : `A${i}+`;
      return `=${before}${(VOLUME * fall) / 60}/NARROWS.RIG.SPEED(${range},"rig 0",${pressure})`;
    }),
  );
  rows.push([
    `a book with one pull-down as one formula against ${STEPS} cells of steps (${((Number(stepwise.last) / Number(one.last) - 1) * 100).toFixed(2)} % apart)`,
    `${(stepwise.ms / one.ms).toFixed(1)} times`,
    'ratio',
  ]);
}
