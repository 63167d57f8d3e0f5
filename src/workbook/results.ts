import type { ICellData, IWorkbookData } from '@univerjs/core';
import type { CellRange } from '../tables/cells.ts';
import type { Block } from './address.ts';
import type { Stored } from './patch.ts';

/** What a calculation gives back for a workbook; the calculator's `snapshot()` and `spills()` fit. */
export interface Results {
  /** the workbook with the values of its formulas in their cells */
  readonly snapshot: IWorkbookData;
  /** results that fill a range; rows and columns count from 0 */
  readonly spills: readonly SpilledRange[];
}

export interface SpilledRange {
  /** name of the sheet */
  readonly sheet: string;
  readonly range: Block;
  readonly cells: CellRange;
}

const ERROR = /^#(?:NULL!|DIV\/0!|VALUE!|REF!|NAME\?|NUM!|N\/A|SPILL!|CALC!|GETTING_DATA|CYCLE!|ERROR!)$/;
/** Errors that only the engine knows, as the one that any program shows. */
const OWN_ERRORS: Readonly<Record<string, string>> = { '#CYCLE!': '#VALUE!', '#ERROR!': '#VALUE!' };
const BOOLEAN = 3;

/** A cell of the snapshot as it is stored. Text of a formula that reads like an error is one. */
export function storedOf(cell: ICellData | null | undefined): Stored {
  const value = cell?.v ?? textOf(cell);
  if (value === null || value === undefined) return null;
  if (cell?.t === BOOLEAN) return Boolean(typeof value === 'string' ? value === 'TRUE' || value === '1' : value);
  if (typeof value === 'string' && ERROR.test(value)) return { error: OWN_ERRORS[value] ?? value };
  return value;
}

/** What HYPERLINK gives: the calculation keeps it as a document, and no value beside it. */
function textOf(cell: ICellData | null | undefined): string | undefined {
  return cell?.f ? cell.p?.body?.dataStream.replace(/\r\n$/, '') : undefined;
}

/** A cell of a spilled range as it is stored. */
export function storedCell(cell: CellRange[number][number]): Stored {
  if (cell === null || cell === undefined) return null;
  if (typeof cell === 'object') return { error: OWN_ERRORS[cell.error] ?? cell.error };
  return cell;
}
