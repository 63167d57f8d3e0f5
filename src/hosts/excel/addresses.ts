import { columnLetters } from '../../workbook/address.ts';

/** `'Pipe runs'!$B$4` apart: the sheet's plain name and the cells as Excel's `getRange` takes them. */
export function splitAddress(address: string): { readonly sheet: string; readonly cells: string } {
  const split = address.lastIndexOf('!');
  const sheet = address
    .slice(0, Math.max(split, 0))
    .replace(/^=?'(.*)'$/, '$1')
    .replaceAll("''", "'");
  return { sheet, cells: address.slice(split + 1).replaceAll('$', '') };
}

/** Address of a cell as people read it: Pipe runs!B4. Row and column count from 0. */
export function cellAddress(sheet: string, row: number, column: number): string {
  return `${sheet}!${columnLetters(column)}${row + 1}`;
}
