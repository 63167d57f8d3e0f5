import type { Cell, CellRange } from '../tables/cells.ts';
import { isCellError } from '../tables/cells.ts';
import type { Explainer } from './explain.ts';
import { withEquals } from './formula-text.ts';
import { refusal, wordsOfBreakdown } from './guard-faults.ts';
import {
  type AstBuilderSeam,
  type BaseValueObject,
  type CurrentConfigSeam,
  type InterpreterSeam,
  isReference,
  type LexerSeam,
  type NodeValue,
  type RuntimeSeam,
} from './seams.ts';
import type { Injector, UniverModules } from './univer.ts';
import { cellsOf } from './values.ts';
import { wordsFor } from './words.ts';

export interface CellErrorInTable {
  readonly row: number;
  readonly column: number;
  readonly error: string;
  readonly message: string;
}

/**
 * What a formula gives: a cell's value or rows of them, or an error. Blank cells are "". `errors` lists the cells of a
 * table that hold an error; in the table itself such a cell is its code.
 */
export type Answer =
  | { readonly value: Plain | PlainTable; readonly errors?: readonly CellErrorInTable[] }
  | { readonly error: string; readonly message: string };

export type Plain = string | number | boolean;
export type PlainTable = readonly (readonly Plain[])[];

export const isTable = (value: Plain | PlainTable): value is PlainTable => Array.isArray(value);

const isRange = (cells: Cell | CellRange): cells is CellRange => Array.isArray(cells);
const plain = (cell: Cell): Plain => (isCellError(cell) ? cell.error : (cell ?? ''));

export type Evaluator = (formulas: readonly string[], unitId: string, sheetId: string) => Answer[];

/** Works out formulas that stand in no cell. They see the values that the workbook shows. */
export function createEvaluator({ engine }: UniverModules, injector: Injector, explainer: Explainer): Evaluator {
  const lexer = injector.get(engine.Lexer) as unknown as LexerSeam;
  const builder = injector.get(engine.AstTreeBuilder) as unknown as AstBuilderSeam;
  const interpreter = injector.get(engine.Interpreter) as unknown as InterpreterSeam;
  const runtime = injector.get(engine.IFormulaRuntimeService) as unknown as RuntimeSeam;
  const config = injector.get(engine.IFormulaCurrentConfigService) as unknown as CurrentConfigSeam;

  function workOut(formula: string): NodeValue | string {
    const read = lexer.treeBuilder(formula);
    if (typeof read === 'string') return read;
    const node = builder.parse(read);
    if (node === null || node === undefined) return '#NAME?';
    return interpreter.execute({ node, refOffsetX: 0, refOffsetY: 0 });
  }

  function answerTo(typed: string, unitId: string, sheetId: string): Answer {
    const formula = withEquals(typed);
    const place = { unitId, sheetId, row: -1, column: -1 };
    const words = (code: string, content: string): string =>
      content === '' ? explainer.formula(formula, code, place) : content;
    if (formula === '=') return { error: '#VALUE!', message: 'There is no formula on this line.' };
    const refused = refusal(formula);
    if (refused !== undefined) return { error: '#VALUE!', message: refused };

    const result = workOut(formula);
    if (typeof result === 'string') return { error: result, message: wordsFor('#ERROR!') };
    const value: BaseValueObject = isReference(result) ? result.toArrayValueObject() : result;
    const cells = cellsOf(value);
    if (!isRange(cells)) {
      if (!isCellError(cells)) return { value: plain(cells) };
      const error = value.isArray() ? value.get(0, 0) : value;
      return { error: cells.error, message: words(cells.error, error?.isError() ? error.getErrorContent() : '') };
    }
    const errors: CellErrorInTable[] = [];
    cells.forEach((line, row) => {
      line.forEach((cell, column) => {
        if (!isCellError(cell)) return;
        const content = value.get(row, column)?.getErrorContent() ?? '';
        errors.push({ row: row + 1, column: column + 1, error: cell.error, message: words(cell.error, content) });
      });
    });
    const table = cells.map((line) => line.map(plain));
    return errors.length === 0 ? { value: table } : { value: table, errors };
  }

  return (formulas, unitId, sheetId) => {
    engine.CELL_INVERTED_INDEX_CACHE.clear();
    engine.FORMULA_REF_TO_ARRAY_CACHE.clear();
    config.loadDataLite();
    return formulas.map((formula) => {
      try {
        runtime.reset();
        runtime.setCurrent(0, 0, 0, 0, sheetId, unitId);
        return answerTo(formula, unitId, sheetId);
      } catch (error) {
        return { error: '#VALUE!', message: wordsOfBreakdown(error) };
      }
    });
  };
}
