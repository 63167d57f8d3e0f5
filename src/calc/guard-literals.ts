import type { Injector, UniverModules } from './univer.ts';

/**
 * Text in a formula stays text. As it comes, the engine turns quoted text that looks like a date, a time, a percentage or
 * money into a number on its way into most functions ("3/8" becomes the serial number of a day, "50%" a half), and
 * it cuts array constants at every comma and semicolon, those inside quotes included. Both give wrong answers without a word.
 */

interface ArraySeam {
  _formatValue(raw: unknown): unknown;
  _rowCount: number;
  _columnCount: number;
}

const installed = new WeakSet<object>();

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

  const array = engine.ArrayValueObject.prototype as unknown as ArraySeam;
  if (installed.has(array)) return;
  installed.add(array);
  const format = array._formatValue;
  array._formatValue = function (this: ArraySeam, raw: unknown): unknown {
    if (typeof raw !== 'string') return format.call(this, raw);
    const rows = arrayConstantItems(raw);
    this._rowCount = rows.length;
    this._columnCount = rows.reduce((widest, row) => Math.max(widest, row.length), 0);
    return rows.map((row) => row.map((item) => engine.ValueObjectFactory.create(item, true)));
  };
}
