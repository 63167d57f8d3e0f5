import { isQuantity, scaleFromSI } from '../units/quantity.ts';
import type { Cell, CellRange } from './cells.ts';
import type { ReportUnits, SpillColumn, SpillTable } from './spill.ts';

function unitOf(column: SpillColumn, units: ReportUnits): string | undefined {
  return units === 'inch' ? (column.inchUnit ?? column.metricUnit) : column.metricUnit;
}

const MICRO = 1e6;
const NOISE = 4 * Number.EPSILON;

/**
 * SI value to unit, less the noise of the unit's factor on what somebody typed with up to six decimals
 * (499.99999999999994 micron, 67.99999999999993 F).
 */
function tidy(convert: (si: number) => number): (si: number) => number {
  const offset = Math.abs(convert(0));
  return (si) => {
    const value = convert(si);
    const rounded = Math.round(value * MICRO) / MICRO;
    return Math.abs(rounded - value) <= NOISE * (Math.abs(value) + offset) ? rounded : value;
  };
}

/** A table as it is spilled: a header row that carries the units, SI numbers in the reader's units. */
export function toRange(table: SpillTable, units: ReportUnits): CellRange {
  const converters = table.columns.map((column) => {
    const unit = unitOf(column, units);
    const { quantity } = column;
    if (unit === undefined || quantity === undefined || !isQuantity(quantity)) return undefined;
    return tidy(scaleFromSI(unit, quantity));
  });
  const header = table.columns.map((column) => {
    const unit = unitOf(column, units);
    return unit === undefined ? column.name : `${column.name} (${unit})`;
  });
  const rows = table.rows.map((row) =>
    table.columns.map((_, index): Cell => {
      const cell = row[index];
      const convert = converters[index];
      if (typeof cell === 'number' && convert !== undefined) return convert(cell);
      return cell ?? '';
    }),
  );
  return [header, ...rows];
}
