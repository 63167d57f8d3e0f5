import { expect } from 'vitest';
import type { RawArgument } from '../../../src/functions/define.ts';
import { callById } from '../../../src/functions/index.ts';
import type { Cell, CellRange } from '../../../src/tables/cells.ts';

/** Invented rigs: a small hose on a fitted core, the same without the core, and a wide hose. */
export const PARTS: CellRange = [
  ['Rig', 'Part', 'Kind', 'Bore (mm)', 'Length (m)', 'Speed (cfm)', 'Ultimate (micron)', 'Cost'],
  ['fitted', 'pump', 'pump', '', '', 5, 20, 300],
  ['fitted', 'small hose', 'hose', 4.8, 1.5, '', '', 20],
  ['fitted', 'core', 'core', 1.2, 0.006, '', '', ''],
  ['bare', 'pump', 'pump', '', '', 5, 20, 300],
  ['bare', 'small hose', 'hose', 4.8, 1.5, '', '', 20],
  ['wide', 'pump', 'pump', '', '', 5, 20, 300],
  ['wide', 'wide hose', 'hose', 12.7, 1.5, '', '', 80],
];

export function numberFrom(id: string, ...given: RawArgument[]): number {
  const outcome = callById(id, given);
  if (!outcome.ok) throw new Error(`${id}: ${outcome.code} ${outcome.message}`);
  if (typeof outcome.value !== 'number') throw new Error(`${id} gave no number`);
  return outcome.value;
}

export function tableFrom(id: string, ...given: RawArgument[]): readonly (readonly Cell[])[] {
  const outcome = callById(id, given);
  if (!outcome.ok) throw new Error(`${id}: ${outcome.code} ${outcome.message}`);
  if (!Array.isArray(outcome.value)) throw new Error(`${id} gave no table`);
  return outcome.value as CellRange;
}

export function expectFault(code: string, words: RegExp, id: string, ...given: RawArgument[]): void {
  const outcome = callById(id, given);
  if (outcome.ok) throw new Error(`${id} gave ${JSON.stringify(outcome.value)}`);
  expect(outcome.code, outcome.message).toBe(code);
  expect(outcome.message).toMatch(words);
}

/** A column of a spilled table below its header, by the header's beginning. */
export function columnOf(table: readonly (readonly Cell[])[], header: string): readonly Cell[] {
  const index = table[0]?.findIndex((cell) => String(cell).startsWith(header)) ?? -1;
  if (index < 0) throw new Error(`no column ${header} in ${JSON.stringify(table[0])}`);
  return table.slice(1).map((row) => row[index]);
}
