import type { Calculator } from '../../calc/calculator.ts';
import { type Answer, isTable } from '../../calc/evaluate.ts';
import { cellName } from '../../calc/formula-text.ts';
import { asTyped } from '../../workbook/prefixes.ts';
import type { Book } from '../../workbook/read.ts';
import { exitStatus, Refusal } from './exit.ts';
import { lineBatches } from './lines.ts';
import { plainText, printable, printed, tableText } from './printing.ts';

export interface CellOptions {
  readonly book?: string;
  readonly sheet?: string;
  readonly json?: boolean;
  readonly lines?: boolean;
}

type Evaluate = (formulas: readonly string[]) => readonly Answer[];

const hasError = (answer: Answer): boolean => 'error' in answer || answer.errors !== undefined;

/** Cells that end in an error, for standard error: `#N/A: …`, and inside a table `B3 #N/A: …`. */
function errorLines(answer: Answer): string[] {
  if ('error' in answer) return [`${answer.error}: ${answer.message}`];
  return (answer.errors ?? []).map(
    ({ row, column, error, message }) => `${cellName(row - 1, column - 1)} ${error}: ${message}`,
  );
}

async function oneFormula(evaluate: Evaluate, formula: string, json: boolean): Promise<number> {
  const [answer] = evaluate([formula]);
  if (!answer) return exitStatus.cellError;
  if (json) await printed(`${JSON.stringify(answer)}\n`);
  else if ('value' in answer) {
    const width = process.stdout.isTTY ? process.stdout.columns : undefined;
    await printed(`${isTable(answer.value) ? tableText(answer.value, width) : printable(plainText(answer.value))}\n`);
  }
  for (const line of errorLines(answer)) process.stderr.write(`${printable(line)}\n`);
  return hasError(answer) ? exitStatus.cellError : exitStatus.ok;
}

async function manyFormulas(evaluate: Evaluate): Promise<number> {
  let failed = false;
  for await (const batch of lineBatches(process.stdin)) {
    const answers = evaluate(batch);
    failed ||= answers.some(hasError);
    await printed(answers.map((answer) => `${JSON.stringify(answer)}\n`).join(''));
  }
  return failed ? exitStatus.cellError : exitStatus.ok;
}

/** The formulas' surroundings: an empty sheet, or a workbook worked out. */
async function surroundings(
  calculator: Calculator,
  book: Book | undefined,
  sheet: string | undefined,
): Promise<Evaluate> {
  if (book) {
    calculator.load(book.snapshot);
    await calculator.recalculate();
  }
  if (sheet !== undefined && !calculator.sheets().includes(sheet)) {
    throw new Refusal(`there is no sheet called ${sheet}; there are: ${calculator.sheets().join(', ')}`);
  }
  const context = sheet === undefined ? undefined : { sheet };
  return (formulas) =>
    calculator.evaluate(
      formulas.map((formula) => asTyped(formula.trim())),
      context,
    );
}

/** `narrows cell`: works out formulas. Status 0 only if none ends in an error. */
export async function cellCommand(formula: string | undefined, options: CellOptions): Promise<number> {
  if (options.lines && formula !== undefined) throw new Refusal('give a formula or --lines, not both');
  if (!options.lines && formula === undefined) throw new Refusal('give a formula, or --lines to read formulas');
  const book = options.book === undefined ? undefined : await (await import('./book.ts')).readBook(options.book);
  const { createNodeCalculator } = await import('../../calc/node.ts');
  const calculator = createNodeCalculator();
  try {
    const evaluate = await surroundings(calculator, book, options.sheet);
    return await (formula === undefined
      ? manyFormulas(evaluate)
      : oneFormula(evaluate, formula, options.json ?? false));
  } finally {
    calculator.dispose();
  }
}
