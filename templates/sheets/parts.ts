import type { ModelSheet } from '../../src/workbook/model.ts';
import { lastRemark, letter, printed, rowsBelow, spareRows, type TableSpot } from '../layout.ts';
import { roomFor } from '../readable.ts';
import { partsHeader, partsRows, type TemplateRig, templateRigs } from '../rigs.ts';
import { choice } from './lists.ts';

const HEADER_ROW = 4;
const SPARE = 20;
/** Basis is told beside the range: the functions read up to Swap group and Note. */
const columns = partsHeader.length;
const listColumn = letter(columns + 1);
const SPARE_RIGS = 8;
const WIDTHS = [31, 36, 11, 10, 11, 8, 14, 8, 12, 17, 19, 10, 17, 60, 3, 31];
/** Row of what the functions remark on the table; two lines hold the note on a part whose figures are not the library's. */
const REMARK = { row: 3, points: 30, columns: roomFor('x'.repeat(150), 'text', WIDTHS)?.last ?? 'A' } as const;

/** The parts of some rigs, where they stand, and the range of their names. */
export function partsTable(rigs: readonly TemplateRig[]): {
  readonly sheet: ModelSheet;
  readonly spot: TableSpot;
  readonly rigNames: string;
} {
  const rows = partsRows(rigs);
  const partsSpot: TableSpot = {
    sheet: 'Parts',
    headerRow: HEADER_ROW,
    columns,
    lastRow: HEADER_ROW + rows.length + SPARE,
  };

  /** Names of the rigs, for lists in other sheets. */
  const rigNamesRange = `Parts!$${listColumn}$${HEADER_ROW + 1}:$${listColumn}$${
    HEADER_ROW + rigs.length + SPARE_RIGS
  }`;

  const firstRow = HEADER_ROW + 1;
  const body = (column: number): string => `${letter(column)}${firstRow}:${letter(column)}${partsSpot.lastRow}`;

  const sheet: ModelSheet = {
    name: 'Parts',
    widths: WIDTHS,
    heights: { [REMARK.row]: REMARK.points },
    merges: [`A${REMARK.row}:${REMARK.columns}${REMARK.row}`],
    frozenRows: HEADER_ROW,
    frozenColumns: 2,
    tabColour: '4F6D7A',
    cells: {
      A1: { value: 'Parts: the rigs', look: 'title' },
      A2: {
        value:
          'One row a part, from the pump to the system. A name of the parts library brings its own values where the row leaves them blank. Measure your own gear and type over these. Cost is for one part, in your money; the prices that stand here are examples.',
        look: 'note',
        wrap: false,
      },
      [`A${REMARK.row}`]: { ...rowsBelow('Parts', partsSpot, lastRemark('Parts', 'parts', partsSpot)), wrap: true },
      [`${listColumn}${HEADER_ROW}`]: {
        value: 'Rigs for the lists',
        look: 'header',
        comment: 'Add the name of a new rig here and the lists on Units and Compare offer it.',
      },
    },
    blocks: [
      { at: `A${HEADER_ROW}`, rows: [[...partsHeader]], look: 'header' },
      {
        at: `A${firstRow}`,
        rows: [...rows, ...spareRows(columns, SPARE)],
        look: 'input',
        columns: [
          { look: 'input' },
          { look: 'input' },
          { look: 'input' },
          { look: 'input', format: '0.0##' },
          { look: 'input', format: '0.0##' },
          { look: 'input', format: '0' },
          { look: 'input', format: '0.0#' },
          { look: 'input', format: '0.0#' },
          { look: 'input', format: '0.0#' },
          { look: 'input', format: '0.0' },
          { look: 'input' },
          { look: 'input', format: '#,##0' },
          { look: 'note' },
          { look: 'note' },
        ],
      },
      {
        at: `${listColumn}${firstRow}`,
        rows: [...rigs.map(({ name }) => [name]), ...spareRows(1, SPARE_RIGS)],
        look: 'input',
      },
    ],
    validations: [
      {
        range: body(1),
        list: choice('parts'),
        title: 'Part',
        message:
          "A name of the library brings its figures where the row leaves them blank; the row's own count before them. Other names are free.",
        free: true,
      },
      {
        range: body(2),
        list: choice('kinds'),
        title: 'Kind of part',
        message: 'Pick a kind from the list. The first part of every rig is its pump.',
        strict: true,
      },
    ],
    numberRules: [
      {
        range: `${letter(3)}${firstRow}:${letter(4)}${partsSpot.lastRow}`,
        least: 0,
        title: 'Size',
        message: 'Above 0.',
      },
      { range: body(5), least: 1, title: 'Count', message: 'A whole number from 1 on.' },
      {
        range: body(11),
        least: 0,
        title: 'Cost',
        message: 'Price of one part, 0 or more; blank where nothing is bought.',
      },
      { range: body(6), least: 0, most: 1, title: 'Coefficient', message: 'Above 0 and at most 1.' },
    ],
    print: printed({
      headerRow: HEADER_ROW,
      area: `A:${letter(columns - 1)}`,
      columnsBefore: [letter(partsHeader.indexOf('Swap group'))],
    }),
  };
  return { sheet, spot: partsSpot, rigNames: rigNamesRange };
}

export const { sheet: partsSheet, spot: partsSpot, rigNames: rigNamesRange } = partsTable(templateRigs);
