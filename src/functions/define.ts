import type { Cell, CellRange } from '../tables/cells.ts';
import type { SpillColumn, SpillTable } from '../tables/spill.ts';

/** What a host hands over for one argument: a single cell or a range. */
export type RawArgument = Cell | CellRange;

export type ParameterKind = 'quantity' | 'number' | 'text' | 'choice' | 'table' | 'list' | 'conditions' | 'any';

/**
 * One parameter of a cell function: what people read about it and how a raw argument becomes a clean value.
 * `read` gets blanks only when the parameter is optional (it then returns its default), and single cells only unless
 * `takesRange` is set: the adapter lifts scalar parameters over ranges.
 */
export interface Parameter<T> {
  readonly kind: ParameterKind;
  readonly description: string;
  readonly quantity?: string;
  /** default unit of a bare number */
  readonly unit?: string;
  readonly choices?: readonly string[];
  /** kind of table: 'parts', 'runs', 'units', 'log', ... */
  readonly table?: string;
  readonly optional: boolean;
  /** the last parameter may repeat: SERIES(c1, c2, ...) */
  readonly repeating: boolean;
  readonly takesRange: boolean;
  readonly read: (raw: RawArgument, argument: string) => T;
}

export type Parameters = Record<string, Parameter<unknown>>;
/** Values as the body sees them: keys as declared, SI numbers and typed records. A repeating one arrives as an array. */
export type Values<P extends Parameters> = { readonly [K in keyof P]: P[K] extends Parameter<infer T> ? T : never };

export type Result =
  | { readonly kind: 'number'; readonly quantity?: string; readonly unit: string; readonly description: string }
  | { readonly kind: 'text'; readonly description: string }
  | { readonly kind: 'table'; readonly columns?: readonly SpillColumn[]; readonly description: string };

export interface Example {
  /** as typed into a cell, with the leading = and the namespace */
  readonly formula: string;
  readonly shows: string;
}

export type Group =
  | 'Look-up'
  | 'Passages'
  | 'Rig'
  | 'Volume'
  | 'Evacuation'
  | 'Dry-out'
  | 'Hold test'
  | 'Recovery and charging'
  | 'Estimate'
  | 'Words';

/**
 * A cell function, declared once. Everything that any host, page or test knows of it comes from this record.
 * `id` is the name after the namespace: TUBE.BORE for =NARROWS.TUBE.BORE(...). Ids never change, parameters are only
 * appended. The key of a parameter is its name in documentation: lower camel case, e.g. `minutes`, `criticalRatio`.
 */
export interface Declaration<P extends Parameters> {
  readonly id: string;
  readonly group: Group;
  readonly summary: string;
  readonly parameters: P;
  readonly result: Result;
  readonly examples: readonly Example[];
  readonly notes?: readonly string[];
  readonly sources?: readonly string[];
  /** Gets SI values; returns an SI number (converted to the result's unit when it leaves), text, or a table. */
  readonly body: (values: Values<P>) => number | string | boolean | SpillTable | CellRange;
}

export interface CellFunction extends Omit<Declaration<Parameters>, 'body'> {
  readonly body: (values: Readonly<Record<string, unknown>>) => number | string | boolean | SpillTable | CellRange;
}

export function defineFunction<P extends Parameters>(declaration: Declaration<P>): CellFunction {
  return declaration as unknown as CellFunction;
}
