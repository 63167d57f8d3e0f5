import { readFileSync } from 'node:fs';
import { type ICellData, type IStyleData, numfmt } from '@univerjs/core';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Calculator } from '../../src/calc/calculator.ts';
import { createNodeCalculator } from '../../src/calc/node.ts';
import { newWorkbook } from '../../src/workbook/build.ts';
import { readWorkbook } from '../../src/workbook/read.ts';
import { books } from '../../templates/books.ts';
import { emptied } from '../../templates/empty.ts';
import { templateModel } from '../../templates/model.ts';
import { startBrowser } from './chromium.ts';

/** Pixels on either side of a cell's text. */
const MARGIN = 2;
/** Pixels of a line, to a point of its font: 96/72, and the least that lies between lines. */
const LINE = (96 / 72) * 1.05;
/** Text alignments, as the sheet numbers them: wrapped lines. */
const WRAPPED = 3;

interface Text {
  readonly where: string;
  readonly text: string;
  /** as a canvas takes it */
  readonly font: string;
  /** px to the next cell that shows something, or of its own column where it wraps */
  readonly room: number;
  /** lines that its row has room for; 0 for a text that does not wrap */
  readonly lines: number;
}

/** A book that ships, worked out, since the headers of the large tables spill. */
const opened = (book: string): Promise<Calculator> => calculated(readFileSync(`templates/${book}.xlsx`));

async function calculated(file: Uint8Array): Promise<Calculator> {
  const calculator = createNodeCalculator();
  calculator.load((await readWorkbook(file)).snapshot);
  await calculator.recalculate();
  return calculator;
}

/** The bold texts of a book and those that wrap, each with the room that it has. */
async function textsOf(book: string): Promise<Text[]> {
  const calculator = await opened(book);
  const snapshot = calculator.snapshot();
  const found: Text[] = [];
  for (const {
    name = '',
    cellData = {},
    columnData = {},
    rowData = {},
    mergeData = [],
    columnCount = 0,
  } of Object.values(snapshot.sheets)) {
    const width = (column: number): number => columnData[column]?.w ?? 73;
    for (const [rowText, cells] of Object.entries(cellData as Record<number, Record<number, ICellData>>))
      for (const [columnText, cell] of Object.entries(cells)) {
        const [row, column] = [Number(rowText), Number(columnText)];
        const style = (typeof cell.s === 'string' ? snapshot.styles[cell.s] : cell.s) as IStyleData | undefined;
        const wraps = style?.tb === WRAPPED;
        const text = style?.bl === 1 || wraps ? calculator.value(name, row, column) : null;
        if (style === undefined || typeof text !== 'string' || text === '') continue;
        if (mergeData.some((merge) => merge.startRow === row && merge.startColumn === column)) continue;
        let room = width(column) - 2 * MARGIN;
        const shows = (at: number): boolean => (calculator.value(name, row, at) ?? '') !== '';
        if (!wraps) for (let next = column + 1; next < columnCount && !shows(next); next++) room += width(next);
        const points = style.fs ?? 11;
        const height = rowData[row]?.h;
        const lines = height === undefined ? Number.MAX_SAFE_INTEGER : Math.floor(height / (points * LINE));
        const where = `${name} row ${row + 1} column ${column + 1}`;
        const font = `${style.bl === 1 ? 'bold ' : ''}${points}pt ${style.ff ?? 'Calibri'}`;
        found.push({ where, text, font, room, lines: wraps ? lines : 0 });
      }
  }
  calculator.dispose();
  return found;
}

/** The numbers of a book as they show, each with the room that its column or its merged cells have; one without a format may lose its decimals. */
function numbersOf(calculator: Calculator): Text[] {
  const snapshot = calculator.snapshot();
  const found: Text[] = [];
  for (const sheet of Object.values(snapshot.sheets)) {
    const { name = '', cellData = {}, columnData = {}, mergeData = [] } = sheet;
    const places = new Map<string, ICellData>();
    for (const [row, cells] of Object.entries(cellData as Record<number, Record<number, ICellData>>))
      for (const [column, cell] of Object.entries(cells)) places.set(`${row},${column}`, cell);
    for (const spill of calculator.spills().filter((one) => one.sheet === name))
      spill.cells.forEach((line, down) => {
        line.forEach((_, across) => {
          const place = `${spill.range.startRow + down},${spill.range.startColumn + across}`;
          if (!places.has(place)) places.set(place, {});
        });
      });
    for (const [place, cell] of places) {
      const [row = 0, column = 0] = place.split(',').map(Number);
      const value = calculator.value(name, row, column);
      if (typeof value !== 'number' || columnData[column]?.hd === 1) continue;
      const style = (typeof cell.s === 'string' ? snapshot.styles[cell.s] : cell.s) as IStyleData | undefined;
      const merge = mergeData.find(({ startRow, startColumn }) => startRow === row && startColumn === column);
      let room = 1 - 2 * MARGIN - (style?.pd?.l ?? 0);
      for (let at = column; at <= (merge?.endColumn ?? column); at++) room += columnData[at]?.w ?? 64;
      const pattern = style?.n?.pattern;
      const text = pattern === undefined ? String(Math.round(value)) : numfmt.format(pattern, value).trim();
      const font = `${style?.bl === 1 ? 'bold ' : ''}${style?.fs ?? 11}pt ${style?.ff ?? 'Calibri'}`;
      found.push({ where: `${name} row ${row + 1} column ${column + 1}`, text, font, room, lines: 0 });
    }
  }
  return found;
}

/** The empty book with so many units of ten litres in its table, each with a count of its own. */
async function filled(units: number): Promise<Calculator> {
  const model = emptied(templateModel());
  const names = (model.names ?? []).map((one) =>
    one.name === 'Units' ? { ...one, range: one.range.replace(/\d+$/, String(4 + units)) } : one,
  );
  const calculator = await calculated(await newWorkbook({ ...model, names }));
  for (let unit = 0; unit < units; unit++) {
    const cells = { 0: `U${unit + 1}`, 3: unit + 1, 4: 10, 5: 'B core out, small hose' };
    for (const [column, value] of Object.entries(cells)) calculator.put('Units', 4 + unit, Number(column), value);
  }
  await calculator.recalculate();
  return calculator;
}

describe('labels, headers and texts of several lines', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await startBrowser();
  });
  afterAll(() => browser?.close());

  it.each(Object.keys(books))('of %s are not cut off, in the font that this machine has for theirs', async (book) => {
    const texts = await textsOf(book);
    expect(texts.length).toBeGreaterThan(20);
    const page = await browser.newPage();
    const cut = await page.evaluate((all) => {
      const context = document.createElement('canvas').getContext('2d');
      if (context === null) throw new Error('no canvas');
      return all.flatMap(({ where, text, font, room, lines }) => {
        context.font = font;
        const width = (words: string): number => context.measureText(words).width;
        const pieces = lines === 0 ? [text] : text.split(/\s+/);
        const widest = Math.ceil(Math.max(...pieces.map(width)));
        if (widest > room) return [`${where}: ${text} (${widest} px in ${room})`];
        let needed = 1;
        pieces.reduce((line, piece) => {
          const longer = line === '' ? piece : `${line} ${piece}`;
          if (width(longer) <= room) return longer;
          needed++;
          return piece;
        }, '');
        return lines > 0 && needed > lines ? [`${where}: ${text} (${needed} lines for ${lines})`] : [];
      });
    }, texts);
    await page.close();
    expect(cut).toEqual([]);
  });

  it.each([...Object.keys(books), '40 units'])('numbers of %s are not wider than their cells', async (book) => {
    const calculator = book === '40 units' ? await filled(40) : await opened(book);
    const numbers = numbersOf(calculator);
    if (book === '40 units') expect(calculator.value('Results', 3, 1)).toBe((40 * 41) / 2);
    calculator.dispose();
    expect(numbers.length).toBeGreaterThan(50);
    const page = await browser.newPage();
    const wide = await page.evaluate((all) => {
      const context = document.createElement('canvas').getContext('2d');
      if (context === null) throw new Error('no canvas');
      return all.flatMap(({ where, text, font, room }) => {
        context.font = font;
        const { width } = context.measureText(text);
        return width > room ? [`${where}: ${text} (${width} px in ${room})`] : [];
      });
    }, numbers);
    await page.close();
    expect(wide).toEqual([]);
  });
});
