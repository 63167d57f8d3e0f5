import { isReference, type NodeValue, type RuntimeSeam } from './seams.ts';

interface PlacedArray {
  getUnitId(): string;
  getSheetId(): string;
  getCurrentRow(): number;
  getCurrentColumn(): number;
  setCurrent(row: number, column: number): void;
  setUnitId(unitId: string): void;
  setSheetId(sheetId: string): void;
}

/**
 * Takes the place off an array that a function made. Many functions of the engine (ROW, UNIQUE, SORT, FILTER, VSTACK, …) give their
 * result the place of the formula's cell, as if it were read from there: a comparison then files it under the cells from there on, and
 * later comparisons of those cells were answered from it. An array read from cells cannot begin at the cell of its own formula.
 */
export function standNowhere(value: NodeValue | null | undefined, formula: RuntimeSeam): void {
  if (!value || isReference(value) || !value.isArray()) return;
  const array = value as unknown as PlacedArray;
  if (array.getCurrentRow() !== formula.currentRow || array.getCurrentColumn() !== formula.currentColumn) return;
  if (array.getSheetId() !== formula.currentSubUnitId || array.getUnitId() !== formula.currentUnitId) return;
  array.setCurrent(-1, -1);
  array.setUnitId('');
  array.setSheetId('');
}
