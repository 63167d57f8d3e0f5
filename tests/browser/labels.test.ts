import { readFileSync } from 'node:fs';
import type { ICellData, IStyleData } from '@univerjs/core';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createNodeCalculator } from '../../src/calc/node.ts';
import { readWorkbook } from '../../src/workbook/read.ts';
import { books } from '../../templates/books.ts';
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

/** The bold texts of a book and those that wrap, each with the room that it has. */
async function textsOf(book: string): Promise<Text[]> {
  // worked out, since the headers of the large tables spill
  const calculator = createNodeCalculator();
  calculator.load((await readWorkbook(readFileSync(`templates/${book}.xlsx`))).snapshot);
  await calculator.recalculate();
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
});
