import { plainSigns } from './formula-signs.ts';
import type { LexerSeam } from './seams.ts';
import type { Injector, UniverModules } from './univer.ts';
import { errorValue } from './values.ts';
import { noConstantWords } from './words.ts';

/**
 * Text in a formula stays text. As it comes, the engine turns quoted text that looks like a date, a time, a percentage or
 * money into a number on its way into most functions ("3/8" becomes the serial number of a day, "50%" a half), and
 * it cuts array constants at every comma and semicolon, those inside quotes included. Numbers that are written other than
 * JavaScript writes them ("1.50", ".5", "1E3") it takes for text. Of a doubled quote in an array constant it leaves one, so
 * that the item runs on into the next. All give wrong answers without a word. And an array constant behind an operator, as in 2*{1,2}, it
 * cannot read.
 */

interface ArraySeam {
  _formatValue(raw: unknown): unknown;
  _rowCount: number;
  _columnCount: number;
}

interface SpellCheckSeam {
  readonly _currentLexerNode: { getChildren(): readonly unknown[] };
  _formulaSpellCheck(): boolean;
}

interface ValueNodeFactorySeam {
  create(token: string): unknown;
}

const installed = new WeakSet<object>();

/** After one of these an array constant may begin. */
const OPERATOR = /^(?:[-+*/^&=<>(]|<=|>=|<>)$/;

const numeral = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?$/i;

/** A number without quotes as the engine knows it for one: `1.50` gives 1.5, `1E3` 1000. Anything else stays as it is. */
export function plainNumeral(token: string): string {
  const text = token.trim();
  if (!numeral.test(text)) return token;
  const value = Number(text);
  return Number.isFinite(value) ? String(value) : '#NUM!';
}

/** What may stand in an array constant: nothing, text in quotes, a number, a truth value or an error; never `1/0` or `A1`. */
function isConstant(item: string, errors: ReadonlySet<string>): boolean {
  if (item === '' || (item.length > 1 && item.startsWith('"') && item.endsWith('"'))) return true;
  return numeral.test(item) || /^(?:true|false)$/i.test(item) || errors.has(item.toUpperCase());
}

/** Stands for a doubled quote in an array constant while the engine reads the formula: a character that means nothing. */
const DOUBLED = '\uE022';

/** Hides the doubled quotes of array constants from the engine. */
export function hideDoubledQuotes(formula: string): string {
  if (!formula.includes('{') || !formula.includes('""')) return formula;
  let hidden = '';
  let braces = 0;
  let quote = '';
  for (let i = 0; i < formula.length; i++) {
    const c = formula[i] ?? '';
    if (quote !== '') {
      if (c === quote && formula[i + 1] === quote) {
        hidden += c === '"' && braces > 0 ? DOUBLED : c + c;
        i++;
        continue;
      }
      if (c === quote) quote = '';
    } else if (c === '"' || c === "'") quote = c;
    else if (c === '{') braces++;
    else if (c === '}') braces--;
    hidden += c;
  }
  return hidden;
}

/** The items of an array constant, row by row, as written: `{1,"a;b";2,""}` gives [['1','"a;b"'],['2','""']]. */
export function arrayConstantItems(text: string): readonly (readonly string[])[] {
  const rows: string[][] = [[]];
  let item = '';
  let quoted = false;
  for (const c of text.slice(1, -1)) {
    if (c === '"') quoted = !quoted;
    if (!quoted && (c === ',' || c === ';')) {
      rows.at(-1)?.push(item.trim());
      item = '';
      if (c === ';') rows.push([]);
    } else item += c;
  }
  rows.at(-1)?.push(item.trim());
  return rows;
}

/** Executors whose text arguments may stand for dates and amounts, as in every spreadsheet: YEAR("2026-01-02"), SUM("50%"). */
function numberFunctions({ engine }: UniverModules): ReadonlySet<string> {
  const sets = [
    engine.FUNCTION_NAMES_DATE,
    engine.FUNCTION_NAMES_FINANCIAL,
    engine.FUNCTION_NAMES_MATH,
    engine.FUNCTION_NAMES_STATISTICAL,
    engine.FUNCTION_NAMES_ENGINEERING,
  ];
  return new Set(sets.flatMap((names) => Object.values(names).map(String)));
}

/** Installs the guard for all functions that are registered by now; safe to call again. */
export function guardLiterals(modules: UniverModules, injector: Injector): void {
  const { engine } = modules;
  const numeric = numberFunctions(modules);
  for (const [name, executor] of injector.get(engine.IFunctionService).getExecutors()) {
    if (!numeric.has(String(name))) executor.isArgumentsIgnoreNumberPattern = () => true;
  }

  const lexer = injector.get(engine.Lexer) as unknown as LexerSeam;
  const read = lexer.treeBuilder.bind(lexer);
  lexer.treeBuilder = (formula, transformSuffix) => read(plainSigns(hideDoubledQuotes(formula)), transformSuffix);

  // the engine looks at what the operand before begins with, so that 2*{1,2} could not be read
  const builder = injector.get(engine.LexerTreeBuilder) as unknown as SpellCheckSeam;
  const check = builder._formulaSpellCheck.bind(builder);
  builder._formulaSpellCheck = () => {
    const last = builder._currentLexerNode.getChildren().at(-1);
    return (typeof last === 'string' && OPERATOR.test(last.trim())) || check();
  };

  const array = engine.ArrayValueObject.prototype as unknown as ArraySeam;
  if (installed.has(array)) return;
  installed.add(array);
  const constant = (item: string): unknown => {
    if (!isConstant(item, engine.ERROR_TYPE_SET)) return errorValue(engine, '#VALUE!', noConstantWords(item));
    if (item.startsWith('"')) return engine.StringValueObject.create(item.slice(1, -1).replaceAll(DOUBLED, '"'));
    return engine.ValueObjectFactory.create(plainNumeral(item), true);
  };
  const format = array._formatValue;
  array._formatValue = function (this: ArraySeam, raw: unknown): unknown {
    if (typeof raw !== 'string') return format.call(this, raw);
    const rows = arrayConstantItems(raw);
    this._rowCount = rows.length;
    this._columnCount = rows.reduce((widest, row) => Math.max(widest, row.length), 0);
    return rows.map((row) => row.map(constant));
  };

  const factory = engine.ValueNodeFactory.prototype as unknown as ValueNodeFactorySeam;
  const create = factory.create;
  factory.create = function (this: ValueNodeFactorySeam, token: string): unknown {
    return create.call(this, plainNumeral(token));
  };
}
