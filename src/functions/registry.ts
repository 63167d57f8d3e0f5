import { raise } from '../faults/issue.ts';
import type { CellFunction } from './define.ts';

/** Namespace of the functions in a sheet: =NARROWS.TUBE.BORE(...). */
export const NAMESPACE = 'NARROWS';

export interface Registry {
  /** in the order of the catalogue */
  readonly functions: readonly CellFunction[];
  /** Without regard to case, with or without the namespace; undefined when there is none. */
  find(id: string): CellFunction | undefined;
  /** As `find`; raises `unknown` with the names of all functions. */
  get(id: string): CellFunction;
}

function idKey(id: string): string {
  const upper = id.trim().toUpperCase();
  return upper.startsWith(`${NAMESPACE}.`) ? upper.slice(NAMESPACE.length + 1) : upper;
}

export function createRegistry(functions: readonly CellFunction[]): Registry {
  const byId = new Map(functions.map((fn) => [fn.id, fn]));
  const find = (id: string) => byId.get(idKey(id));
  return {
    functions,
    find,
    get: (id) => find(id) ?? raise({ kind: 'unknown', what: 'function', value: id, known: [...byId.keys()] }),
  };
}
