import { misread, shapeOf } from './formula-text.ts';
import type { AstBuilderSeam, InterpreterSeam, LexerSeam, NodeValue } from './seams.ts';
import type { Injector, UniverModules } from './univer.ts';
import { errorValue } from './values.ts';
import {
  brokeDownWords,
  semicolonWords,
  tooDeepWords,
  tooLongWords,
  tooManyOperatorsWords,
  twoTextsWords,
} from './words.ts';

/** Levels of brackets that are read at all; the usual spreadsheets stop at 64 levels of functions. */
export const MOST_NESTING = 256;
/** Signs such as + in one formula; each is a level for whoever works it out. */
export const MOST_OPERATORS = 2000;
/** Characters of one formula; the usual spreadsheets stop at 8,192, tables written as constants need more. */
export const MOST_CHARACTERS = 1_000_000;

/** Words for a formula that is refused before it is read, or undefined. */
export function refusal(formula: string): string | undefined {
  if (formula.length > MOST_CHARACTERS) return tooLongWords(formula.length, MOST_CHARACTERS);
  const misreadPart = misread(formula);
  if (misreadPart !== undefined) return misreadPart === 'semicolon' ? semicolonWords : twoTextsWords;
  const { nesting, operators } = shapeOf(formula);
  if (operators > MOST_OPERATORS) return tooManyOperatorsWords(operators, MOST_OPERATORS);
  return nesting > MOST_NESTING ? tooDeepWords : undefined;
}

export function wordsOfBreakdown(error: unknown): string {
  if (error instanceof RangeError) return tooDeepWords;
  return brokeDownWords(error instanceof Error ? error.message : String(error));
}

/**
 * No formula ends the process: whatever is thrown while a formula is read or worked out becomes an error value with words.
 * Formulas nested too deeply are refused before the reader, which would run out of stack, sees them.
 */
export function guardFaults({ engine }: UniverModules, injector: Injector): void {
  const lexer = injector.get(engine.Lexer) as unknown as LexerSeam;
  const builder = injector.get(engine.AstTreeBuilder) as unknown as AstBuilderSeam;
  const interpreter = injector.get(engine.Interpreter) as unknown as InterpreterSeam;

  const read = lexer.treeBuilder.bind(lexer);
  lexer.treeBuilder = (formula, transformSuffix) => {
    if (refusal(formula) !== undefined) return '#VALUE!';
    try {
      return read(formula, transformSuffix);
    } catch {
      return '#VALUE!';
    }
  };

  const parse = builder.parse.bind(builder);
  builder.parse = (lexerNode) => {
    try {
      return parse(lexerNode);
    } catch {
      return parse(read('=#VALUE!'));
    }
  };

  const broken = (error: unknown): NodeValue => errorValue(engine, '#VALUE!', wordsOfBreakdown(error));
  const execute = interpreter.execute.bind(interpreter);
  interpreter.execute = (node) => {
    try {
      return execute(node);
    } catch (error) {
      return broken(error);
    }
  };
  const executeAsync = interpreter.executeAsync.bind(interpreter);
  interpreter.executeAsync = async (node) => {
    try {
      return await executeAsync(node);
    } catch (error) {
      return broken(error);
    }
  };
  const checkAsync = interpreter.checkAsyncNode.bind(interpreter);
  interpreter.checkAsyncNode = (node) => {
    try {
      return checkAsync(node);
    } catch {
      return false;
    }
  };
}
