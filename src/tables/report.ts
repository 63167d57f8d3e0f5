import { isQuantity, scaleFromSI } from '../units/quantity.ts';
import type { Cell, CellRange } from './cells.ts';
import type { ReportUnits, SpillColumn, SpillTable } from './spill.ts';

function unitOf(column: SpillColumn, units: ReportUnits): string | undefined {
  return units === 'inch' ? (column.inchUnit ?? column.metricUnit) : column.metricUnit;
}

const MICRO = 1e6;

/** Takes the noise of a unit's factor off a number that somebody typed with up to six decimals: 499.99999999999994. */
function tidy(value: number): number {
  const rounded = Math.round(value * MICRO) / MICRO;
  return Math.abs(rounded - value) <= 4 * Number.EPSILON * Math.abs(value) ? rounded : value;
}

/** A table as it is spilled: a header row that carries the units, SI numbers in the reader's units. */
export function toRange(table: SpillTable, units: ReportUnits): CellRange {
  const converters = table.columns.map((column) => {
    const unit = unitOf(column, units);
    const { quantity } = column;
    if (unit === undefined || quantity === undefined || !isQuantity(quantity)) return undefined;
    return scaleFromSI(unit, quantity);
  });
  const header = table.columns.map((column) => {
    const unit = unitOf(column, units);
    return unit === undefined ? column.name : `${column.name} (${unit})`;
  });
  const rows = table.rows.map((row) =>
    table.columns.map((_, index): Cell => {
      const cell = row[index];
      const convert = converters[index];
      if (typeof cell === 'number' && convert !== undefined) return tidy(convert(cell));
      return cell ?? '';
    }),
  );
  return [header, ...rows];
}
