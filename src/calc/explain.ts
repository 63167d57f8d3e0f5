import { NAMESPACE } from '../functions/registry.ts';
import { cellName } from './formula-text.ts';
import { refusal } from './guard-faults.ts';
import type { CellPlace, Messages } from './messages.ts';
import type { LexerSeam } from './seams.ts';
import type { Injector, UniverModules } from './univer.ts';
import {
  bareFunctionWords,
  fromCellWords,
  unknownFunctionWords,
  unknownNameWords,
  unknownSheetWords,
  wordsFor,
} from './words.ts';

/** What is read of a workbook to trace an error to the cell that it comes from. */
export interface SheetReader {
  /** the value that a cell shows, spilled ones included */
  valueAt(place: CellPlace): unknown;
  formulaAt(place: CellPlace): string | undefined;
  sheetName(unitId: string, sheetId: string): string;
  sheetId(unitId: string, name: string): string | undefined;
}

/** Cells of a range that are looked through for the first error. */
const MOST_CELLS = 200_000;
/** Cells from which an error is traced back to the next. */
const MOST_STEPS = 16;

export interface Explainer {
  /** words for the error that a formula of `place` ends in */
  formula(formula: string, code: string, place: CellPlace): string;
  /** words for the error that a cell shows */
  cell(place: CellPlace, code: string): string;
  /** the cell whose error a cell only repeats; undefined where the fault is its own */
  repeated(place: CellPlace, code: string): CellPlace | undefined;
}

/** Whether a name stands before a bracket, and so is meant as a function. */
const called = (formula: string, name: string): boolean =>
  formula.toUpperCase().replace(/\s+\(/g, '(').includes(`${name.toUpperCase()}(`);

const letters = /^[\p{L}_][\p{L}\d_.]*$/u;

/**
 * Words for errors that come without any: which name is unknown, or which cell the error comes from, and what that cell's
 * own words are.
 */
export function createExplainer(
  modules: UniverModules,
  injector: Injector,
  messages: Messages,
  reader: SheetReader,
): Explainer {
  const { engine } = modules;
  const lexer = injector.get(engine.LexerTreeBuilder);
  const formulaReader = injector.get(engine.Lexer) as unknown as LexerSeam;
  const functions = injector.get(engine.IFunctionService);
  const names = injector.get(engine.IDefinedNamesService);

  function tokens(formula: string): { text: string; kind: number }[] {
    try {
      const nodes = lexer.sequenceNodesBuilder(formula) ?? [];
      return nodes.flatMap((node) => (typeof node === 'string' ? [] : [{ text: node.token, kind: node.nodeType }]));
    } catch {
      return [];
    }
  }

  const unreadable = (formula: string): boolean => typeof formulaReader.treeBuilder(formula) === 'string';

  const isFunction = (name: string): boolean =>
    functions.hasExecutor(name.toUpperCase()) || /^(?:LET|LAMBDA)$/i.test(name);

  /** Our function for a name that lacks only the first part of it. */
  const ourName = (name: string): string | undefined => {
    const full = `${NAMESPACE}.${name.toUpperCase()}`;
    return isFunction(full) ? full : undefined;
  };

  function unknownName(formula: string, unitId: string): string | undefined {
    for (const { text, kind } of tokens(formula)) {
      if (kind === engine.sequenceNodeType.FUNCTION) {
        const name = text.replace(/^[@\-+]+/, '');
        if (!isFunction(name) && letters.test(name)) {
          return called(formula, name) ? unknownFunctionWords(name, ourName(name)) : unknownNameWords(name);
        }
        if (isFunction(name) && !called(formula, name)) return bareFunctionWords(name);
      } else if (kind === engine.sequenceNodeType.NORMAL && letters.test(text.trim())) {
        const name = text.trim();
        if (isFunction(name)) return bareFunctionWords(name);
        if (!names.getValueByName(unitId, name) && !/^(true|false)$/i.test(name)) return unknownNameWords(name);
      }
    }
    return undefined;
  }

  function unknownSheet(formula: string, unitId: string): string | undefined {
    for (const { text, kind } of tokens(formula)) {
      if (kind !== engine.sequenceNodeType.REFERENCE) continue;
      const { sheetName } = engine.deserializeRangeWithSheet(text);
      if (sheetName !== '' && reader.sheetId(unitId, sheetName) === undefined) return sheetName;
    }
    return undefined;
  }

  /** The first cell that a formula reads and that shows the same error. */
  function source(formula: string, code: string, place: CellPlace): CellPlace | undefined {
    for (const { text, kind } of tokens(formula)) {
      if (kind !== engine.sequenceNodeType.REFERENCE) continue;
      const { sheetName, range } = engine.deserializeRangeWithSheet(text.replace(/#$/, ''));
      const sheetId = sheetName === '' ? place.sheetId : reader.sheetId(place.unitId, sheetName);
      if (sheetId === undefined || Number.isNaN(range.startRow) || Number.isNaN(range.startColumn)) continue;
      let left = MOST_CELLS;
      for (let row = range.startRow; row <= range.endRow; row++) {
        for (let column = range.startColumn; column <= range.endColumn; column++) {
          if (left-- === 0) return undefined;
          const at = { unitId: place.unitId, sheetId, row, column };
          const self = sheetId === place.sheetId && row === place.row && column === place.column;
          if (!self && reader.valueAt(at) === code) return at;
        }
      }
    }
    return undefined;
  }

  /** Words for what is wrong with a formula itself, whatever it reads. */
  function ownWords(formula: string, code: string, place: CellPlace): string | undefined {
    const refused = refusal(formula);
    if (refused !== undefined) return refused;
    if (code === '#VALUE!' && unreadable(formula)) return wordsFor('#ERROR!');
    const missing = unknownSheet(formula, place.unitId);
    if (missing !== undefined) return unknownSheetWords(missing);
    return code === '#NAME?' ? unknownName(formula, place.unitId) : undefined;
  }

  function formulaWords(formula: string, code: string, place: CellPlace, steps: number): string {
    const words = ownWords(formula, code, place);
    if (words !== undefined) return words;
    const from = steps < MOST_STEPS ? source(formula, code, place) : undefined;
    if (!from) return wordsFor(code);
    const name = `${reader.sheetName(from.unitId, from.sheetId)}!${cellName(from.row, from.column)}`;
    return fromCellWords(name, code, cellWords(from, code, steps + 1));
  }

  /** The words that a cell's function had for the error that it shows. */
  function keptWords(place: CellPlace, code: string): string | undefined {
    const kept = messages.at(place);
    return kept && kept.code === code && kept.message !== '' ? kept.message : undefined;
  }

  function cellWords(place: CellPlace, code: string, steps: number): string {
    const kept = keptWords(place, code);
    if (kept !== undefined) return kept;
    const formula = reader.formulaAt(place);
    return formula === undefined ? wordsFor(code) : formulaWords(formula, code, place, steps);
  }

  return {
    formula: (formula, code, place) => formulaWords(formula, code, place, 0),
    cell: (place, code) => cellWords(place, code, 0),
    repeated(place, code) {
      const formula = reader.formulaAt(place);
      const own = formula === undefined || (keptWords(place, code) ?? ownWords(formula, code, place)) !== undefined;
      return own ? undefined : source(formula, code, place);
    },
  };
}
