import type { Cell, ChartSeries, ColumnDef, DataValidation, SheetChart, WriteSheet } from 'hucre';
import { writeXlsx } from 'hucre/xlsx';
import { spotName } from './address.ts';
import { BASE_FONT, styleOf } from './looks.ts';
import { mendWritten, orderFonts, UNSEEN } from './mend.ts';
import type {
  ModelBlock,
  ModelCell,
  ModelChart,
  ModelNumberRule,
  ModelSeries,
  ModelSheet,
  ModelValidation,
  ModelValue,
  WorkbookModel,
} from './model.ts';
import { blockAt, spotAt } from './model-address.ts';
import { readParts, writeParts } from './package.ts';
import { columnBreaks, pageSetup } from './page-setup.ts';
import { asStored } from './prefixes.ts';

/** The day that a built workbook says it was made on: always the same, so that building it again gives the same bytes. */
const MADE = new Date(Date.UTC(2000, 0, 1));

/**
 * A workbook file from a model.
 * @returns an .xlsx file; formulas have no values beside them unless the model gives them
 * @throws Fault `wrong` for an address or a name that no workbook can have
 */
export async function newWorkbook(model: WorkbookModel): Promise<Uint8Array> {
  const bytes = await writeXlsx({
    sheets: model.sheets.map(sheetOf),
    namedRanges: (model.names ?? []).map(({ name, range, comment }) => ({
      name,
      range: asStored(range),
      ...(comment === undefined ? {} : { comment }),
    })),
    defaultFont: BASE_FONT,
    properties: {
      title: model.title,
      ...(model.description === undefined ? {} : { description: model.description }),
      created: MADE,
      modified: MADE,
    },
  });
  const parts = readParts(bytes);
  mendWritten(parts);
  orderFonts(parts);
  return writeParts(parts);
}

function sheetOf(sheet: ModelSheet): WriteSheet {
  const cells = new Map<string, Partial<Cell>>();
  for (const block of sheet.blocks ?? []) addBlock(cells, block);
  for (const [address, given] of Object.entries(sheet.cells ?? {})) {
    const { row, column } = spotAt(address);
    cells.set(`${row},${column}`, cellOf(asCell(given), row, column));
  }
  const validations = [...(sheet.validations ?? []).map(listRule), ...(sheet.numberRules ?? []).map(numberRule)];
  const out: WriteSheet = {
    name: sheet.name,
    cells,
    columns: (sheet.widths ?? []).map((width): ColumnDef => (width === undefined ? {} : { width })),
    rowDefs: new Map(Object.entries(sheet.heights ?? {}).map(([row, height]) => [Number(row) - 1, { height }])),
    merges: (sheet.merges ?? []).map((range) => {
      const block = blockAt(range);
      return { startRow: block.startRow, startCol: block.startColumn, endRow: block.endRow, endCol: block.endColumn };
    }),
    dataValidations: validations,
    charts: (sheet.charts ?? []).map(chartOf),
    hidden: sheet.hidden === true,
    view: {
      showGridLines: sheet.gridLines !== false,
      ...(sheet.tabColour === undefined ? {} : { tabColor: { rgb: sheet.tabColour } }),
    },
    pageSetup: pageSetup(sheet),
    // the writer counts from 0 and names the row that a page ends with
    rowBreaks: (sheet.print?.breaksBefore ?? []).map((row) => row - 2),
    colBreaks: columnBreaks(sheet).map((column) => column - 1),
  };
  if (sheet.frozenRows !== undefined || sheet.frozenColumns !== undefined) {
    out.freezePane = { rows: sheet.frozenRows ?? 0, columns: sheet.frozenColumns ?? 0 };
  }
  return out;
}

function addBlock(cells: Map<string, Partial<Cell>>, block: ModelBlock): void {
  const corner = spotAt(block.at);
  block.rows.forEach((line, down) => {
    line.forEach((given, across) => {
      if (given === undefined) return;
      const column = block.columns?.[across];
      const look = column?.look ?? block.look;
      const format = column?.format ?? block.format;
      const cell: ModelCell = {
        ...(look === undefined ? {} : { look }),
        ...(format === undefined ? {} : { format }),
        ...asCell(given),
      };
      cells.set(
        `${corner.row + down},${corner.column + across}`,
        cellOf(cell, corner.row + down, corner.column + across),
      );
    });
  });
}

function asCell(given: ModelCell | ModelValue): ModelCell {
  return typeof given === 'object' && given !== null ? given : { value: given };
}

function cellOf(cell: ModelCell, row: number, column: number): Partial<Cell> {
  const style = styleOf(cell);
  const out: Partial<Cell> = {};
  if (style !== undefined) out.style = style;
  if (cell.comment !== undefined) out.comment = { text: cell.comment };
  const value = cell.value ?? null;
  if (cell.formula === undefined) return { ...out, value };
  out.formula = asStored(cell.formula);
  if (value !== null) out.formulaResult = value;
  if (cell.spills !== undefined) {
    out.formulaType = 'array';
    out.formulaRef = cell.spills === 'unknown' ? spotName(row, column) : cell.spills;
    out.formulaDynamic = true;
  }
  return out;
}

function listRule({ range, list, title, message, strict, free }: ModelValidation): DataValidation {
  return {
    type: 'list',
    range,
    ...(typeof list === 'string' ? { formula1: list.replace(/^=/, '') } : { values: [...list] }),
    allowBlank: true,
    showErrorMessage: free !== true,
    errorStyle: strict === true ? 'stop' : 'warning',
    ...prompt(title, message),
  };
}

function numberRule({ range, least, most, title, message }: ModelNumberRule): DataValidation {
  const between = least !== undefined && most !== undefined;
  return {
    type: 'decimal',
    range,
    operator: between ? 'between' : least !== undefined ? 'greaterThanOrEqual' : 'lessThanOrEqual',
    formula1: String(least ?? most ?? 0),
    ...(between ? { formula2: String(most) } : {}),
    allowBlank: true,
    showErrorMessage: true,
    errorStyle: 'warning',
    ...prompt(title, message),
  };
}

/** Longest title and text of a prompt that a file may hold (ISO/IEC 29500-1 §18.3.1.32). */
const LONGEST_TITLE = 32;
const LONGEST_MESSAGE = 255;

function prompt(title: string | undefined, message: string | undefined): Partial<DataValidation> {
  if (message === undefined) return {};
  return {
    showInputMessage: true,
    inputMessage: message.slice(0, LONGEST_MESSAGE),
    ...(title === undefined ? {} : { inputTitle: title.slice(0, LONGEST_TITLE) }),
  };
}

function chartOf(chart: ModelChart): SheetChart {
  const from = spotAt(chart.from);
  const to = spotAt(chart.to);
  return {
    type: chart.kind,
    title: chart.title,
    altText: chart.altText,
    anchor: { from: { row: from.row, col: from.column }, to: { row: to.row, col: to.column } },
    series: chart.series.map((series, index) => ({
      name: series.name,
      values: series.values,
      categories: series.categories ?? chart.categories,
      ...(chart.kind === 'scatter' ? drawnAs(series) : series.unseen === true ? { color: UNSEEN } : {}),
      // in a stacked chart a series without a colour of its own is one that is not drawn (see extras.ts)
      ...(chart.stacked === true && series.unseen !== true ? { color: STACKED[index % STACKED.length] ?? POINT } : {}),
    })),
    ...(chart.stacked === true ? { barGrouping: 'stacked' as const, gapWidth: STACKED_GAP } : {}),
    ...legendOf(chart),
    axes: {
      x: {
        ...(chart.xTitle === undefined ? {} : { title: chart.xTitle }),
        // Lying bars stand in the order of the table, the first on top; the scale stays at the bottom.
        ...(chart.kind === 'bar' ? { reverse: true } : {}),
        ...(chart.xLog === true ? { scale: { logBase: 10 } } : {}),
      },
      y: {
        ...(chart.yTitle === undefined ? {} : { title: chart.yTitle }),
        ...(chart.kind === 'bar' && chart.scaleOnTop !== true ? { crosses: 'max' as const } : {}),
        gridlines: { major: true },
        ...yScale(chart),
      },
    },
  };
}

const POINT = 'B3541E';
const STACKED = ['12616B', POINT, '6A7F2A', '5B4B8A'] as const;

/** Percent of a bar's width between one bar and the next, where a bar stands for several series. */
const STACKED_GAP = 40;

/** One series needs no legend; a series that is not drawn has no place in it. */
function legendOf({ series }: ModelChart): Pick<SheetChart, 'legend' | 'legendEntries'> {
  const unseen = series.flatMap((one, idx) => (one.unseen === true ? [{ idx, delete: true }] : []));
  if (series.length - unseen.length < 2) return { legend: false };
  return { legend: 'bottom', ...(unseen.length === 0 ? {} : { legendEntries: unseen }) };
}

/** Bars begin at 0, or their lengths would lie. */
function yScale({ kind, yLog, yStep }: ModelChart): { scale?: { logBase?: number; min?: number; majorUnit?: number } } {
  const step = yStep === undefined ? {} : { majorUnit: yStep };
  if (yLog === true) return { scale: { logBase: 10 } };
  if (kind === 'bar' || kind === 'column') return { scale: { min: 0, ...step } };
  return yStep === undefined ? {} : { scale: step };
}

/** Curves are lines without marks; readings are marks without a line. */
function drawnAs({ points }: ModelSeries): Partial<ChartSeries> {
  return points === true
    ? { color: UNSEEN, marker: { symbol: 'circle', size: 6, fill: POINT, line: POINT } }
    : { marker: { symbol: 'none' } };
}
