import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { newWorkbook } from '../../src/workbook/build.ts';
import type { ModelSheet, ModelValue, WorkbookModel } from '../../src/workbook/model.ts';
import { emptied } from '../../templates/empty.ts';
import { templateModel } from '../../templates/model.ts';
import { type SheetPage, type SheetTests, standInForPrinter, startSheetTests } from './sheet-page.ts';

const UNITS = 40;
const EACH = 4;
const RIG = 'B core out, small hose';
/** pulls with a break after each but the last */
const PULLS = 8;

function withCells(sheet: ModelSheet, from: string, rows: readonly (readonly ModelValue[])[]): ModelSheet {
  return { ...sheet, blocks: [...(sheet.blocks ?? []), { at: from, rows }] };
}

/** The workbook for real work with more units than its tables came with, and a longer plan of breaks. */
function grown(): WorkbookModel {
  const model = emptied(templateModel());
  const units = Array.from({ length: UNITS }, (_, at) => [`U${at + 1}`, null, null, EACH, 10, RIG]);
  const plan = Array.from({ length: PULLS }, (_, at) =>
    at < PULLS - 1 ? [1000, '0.2 bar g', 'nitrogen', '2 bar g', 8, 15, 2] : [500, null, null, null, null, null, null],
  );
  return {
    ...model,
    sheets: model.sheets.map((sheet) =>
      sheet.name === 'Units'
        ? withCells(sheet, 'A5', units)
        : sheet.name === 'Breaks'
          ? withCells(sheet, 'E5', plan)
          : sheet,
    ),
    names: (model.names ?? []).map((one) =>
      one.name === 'Units' ? { ...one, range: one.range.replace(/\d+$/, String(4 + UNITS + 5)) } : one,
    ),
  };
}

describe('a project that is longer than the example, on paper', () => {
  const folder = mkdtempSync(join(tmpdir(), 'narrows-print-'));
  let tests: SheetTests;
  let sheet: SheetPage;
  beforeAll(async () => {
    const path = join(folder, 'grown.xlsx');
    writeFileSync(path, await newWorkbook(grown()));
    tests = await startSheetTests(path);
    sheet = await tests.open();
    await standInForPrinter(sheet.page);
  }, 120_000);
  afterAll(async () => {
    await tests?.close();
    rmSync(folder, { recursive: true });
  });

  /** Texts of the first cells of the rows that a sheet prints on its first pages across. */
  async function printed(name: string, cell = 1): Promise<string[]> {
    await sheet.page.evaluate(() => document.documentElement.removeAttribute('data-printed'));
    await sheet.select(`${name}!A1`);
    await sheet.page.getByRole('button', { name: 'Print', exact: true }).click();
    await sheet.page.waitForSelector('html[data-printed]');
    return sheet.page.locator(`.nw-print > div:first-child tr > :nth-child(${cell})`).allTextContents();
  }

  it('is worked out', async () => {
    await expect.poll(() => sheet.value('Results!B4'), { timeout: 60_000 }).toBe(UNITS * EACH);
    await expect.poll(() => sheet.page.locator('.nw-working').isVisible(), { timeout: 60_000 }).toBe(false);
  }, 130_000);

  it.each(['Units', 'Results', 'Labour'])('has each unit on %s', async (name) => {
    const rows = await printed(name);
    for (let at = 1; at <= UNITS; at++) expect(rows, `${name} U${at}`).toContain(`U${at}`);
  });

  it('has the rows below the units on Labour, and ends with the last of them', async () => {
    const rows = await printed('Labour');
    expect(rows).toContain('Total');
    expect(rows.at(-1)).toBe('Labour and gear');
  });

  it('has each single unit on Crew, and the bounds below them', async () => {
    const rows = await printed('Crew');
    expect(rows.filter((text) => /crew$/.test(text)).length).toBe(UNITS * EACH);
    for (const below of ['Finish of all', 'First come', 'Checks', 'Travel']) expect(rows).toContain(below);
  });

  it('has the percentiles and the factors on Risk', async () => {
    const rows = await printed('Risk');
    // those that Conditions asks for, and the first of the factors
    for (const row of ['P5', 'P95', 'Mean', 'Water left in the pipes']) expect(rows).toContain(row);
  });

  it('has a plan of breaks to its end', async () => {
    const steps = (await printed('Breaks', 2)).filter((text) => /^(?:pull|break|wait)$/.test(text));
    // a pull, a break and a wait for each row but the last
    expect(steps.length).toBe(3 * (PULLS - 1) + 1);
    expect((await printed('Breaks', 2)).join()).toMatch(/whole plan,one deep pull/);
  });

  it('leaves out the blank rows of tables that have room for more', async () => {
    expect((await printed('Units')).at(-1)).toBe(`U${UNITS}`);
  });
});
