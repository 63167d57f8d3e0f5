import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { blockName } from '../../src/workbook/address.ts';
import { partText, readParts, writeParts } from '../../src/workbook/package.ts';
import { readWorkbook } from '../../src/workbook/read.ts';
import { type SheetPage, type SheetTests, startSheetTests } from './sheet-page.ts';

describe('a workbook goes out of the page and comes back the same', () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'narrows-book-'));
  let tests: SheetTests;
  let sheet: SheetPage;
  beforeAll(async () => {
    tests = await startSheetTests();
    sheet = await tests.open();
  });
  afterAll(async () => {
    await tests?.close();
    rmSync(folder, { recursive: true });
  });

  const status = () => sheet.page.locator('.nw-status').textContent();

  async function save(name: string): Promise<string> {
    const download = sheet.page.waitForEvent('download');
    await sheet.page.getByRole('button', { name: 'Save as .xlsx' }).click();
    const file = path.join(folder, name);
    await (await download).saveAs(file);
    await expect.poll(status, { timeout: 15_000 }).toMatch(/^Saved/);
    return file;
  }

  async function open(file: string): Promise<void> {
    await sheet.page.getByLabel('Workbook to open').setInputFiles(file);
    await expect.poll(status, { timeout: 15_000 }).toMatch(/^Opened/);
  }

  /** The template anew, whatever was changed. */
  const fresh = async () => {
    await sheet.page.getByRole('button', { name: 'New from template' }).click();
    await sheet.page
      .getByRole('button', { name: 'Discard them' })
      .click({ timeout: 3_000 })
      .catch(() => undefined);
    await expect.poll(status, { timeout: 15_000 }).toMatch(/fresh copy/);
  };

  it('keeps what was typed, spilled and worked out; the charts and the rest of the file stay', async () => {
    await sheet.type('Notes!H1', '=NARROWS.SERIES(4,4)');
    await sheet.type('Notes!H3', '=SEQUENCE(2,2)');
    await sheet.type('Notes!H6', 'typed here');
    const total = await sheet.value('Results!B4');
    const file = await save('kept.xlsx');
    const { parts } = await readWorkbook(readFileSync(file));
    expect([...parts.keys()].filter((name) => /charts\/chart\d+\.xml$/.test(name)).length).toBeGreaterThan(0);
    await open(file);
    // the page is there before all of the book is worked out
    await expect
      .poll(() => sheet.values(['Notes!H1', 'Notes!H3', 'Notes!I4', 'Notes!H6', 'Results!B4']), { timeout: 60_000 })
      .toEqual([2, 1, 4, 'typed here', total]);
    await sheet.type('Notes!H1', '=NARROWS.SERIES(6,3)');
    expect(await sheet.value('Notes!H1')).toBeCloseTo(2, 12);
  });

  it('keeps the lines of a cell that is typed in several, and those of one that is edited', async () => {
    await sheet.select('Notes!H8');
    await sheet.page.keyboard.type('one');
    await sheet.page.keyboard.press('Alt+Enter');
    await sheet.page.keyboard.type('two');
    await sheet.page.keyboard.press('Enter');
    await sheet.type('Notes!H9', '=LEN(H8)&" "&CODE(MID(H8,4,1))');
    expect(await sheet.values(['Notes!H8', 'Notes!H9'])).toEqual(['one\ntwo', '7 10']);
    const file = await save('lines.xlsx');
    const { snapshot } = await readWorkbook(readFileSync(file));
    const notes = Object.values(snapshot.sheets).find(({ name }) => name === 'Notes');
    expect(notes?.cellData?.[7]?.[7]?.v).toBe('one\ntwo');
    await open(file);
    await sheet.select('Notes!H8');
    await sheet.page.keyboard.press('F2');
    await sheet.page.waitForTimeout(300);
    await sheet.page.keyboard.type('!');
    await sheet.page.keyboard.press('Enter');
    await expect.poll(() => sheet.value('Notes!H8')).toBe('one\ntwo!');
    await sheet.page.keyboard.press('Control+z');
    await expect.poll(() => sheet.value('Notes!H8')).toBe('one\ntwo');
    await sheet.page.keyboard.press('Delete');
  });

  it('keeps a sheet that was added and a look that was given', async () => {
    await sheet.page.locator('footer button').first().click();
    await sheet.page.waitForTimeout(500);
    const address = (await sheet.page.getByRole('status', { name: 'Selected cell' }).textContent()) ?? '';
    const added = /^(.*)!/.exec(address)?.[1] ?? '';
    await sheet.type(`${added}!A1`, '=NARROWS.TUBE.BORE("1/2 in")');
    const bore = await sheet.value(`${added}!A1`);
    await sheet.select(`${added}!A1`);
    await sheet.page.keyboard.press('Control+b');
    const file = await save('added.xlsx');
    const { snapshot, parts } = await readWorkbook(readFileSync(file));
    const kept = Object.values(snapshot.sheets).find(({ name }) => name === added);
    const cell = kept?.cellData?.[0]?.[0];
    expect(cell?.f).toBe('=NARROWS.TUBE.BORE("1/2 in")');
    expect(typeof cell?.s === 'string' ? snapshot.styles[cell.s]?.bl : undefined).toBe(1);
    expect([...parts.keys()].filter((name) => /charts\/chart\d+\.xml$/.test(name)).length).toBeGreaterThan(0);
    await open(file);
    await expect.poll(() => sheet.value(`${added}!A1`), { timeout: 60_000 }).toBe(bore);
    await expect.poll(() => sheet.value('Results!A11'), { timeout: 60_000 }).toEqual(expect.any(String));
  });

  it('keeps a sheet that was added when it is saved once more after another entry', async () => {
    await sheet.page.getByRole('button', { name: 'New from template' }).click();
    await expect.poll(status, { timeout: 15_000 }).toMatch(/fresh copy/);
    await sheet.page.locator('footer button').first().click();
    await sheet.page.waitForTimeout(500);
    const address = (await sheet.page.getByRole('status', { name: 'Selected cell' }).textContent()) ?? '';
    const added = /^(.*)!/.exec(address)?.[1] ?? '';
    await sheet.type(`${added}!A1`, '11');
    await save('once.xlsx');
    await sheet.type(`${added}!A2`, '12');
    const { snapshot } = await readWorkbook(readFileSync(await save('twice.xlsx')));
    const kept = Object.values(snapshot.sheets).find(({ name }) => name === added);
    expect([kept?.cellData?.[0]?.[0]?.v, kept?.cellData?.[1]?.[0]?.v]).toEqual([11, 12]);
  });

  it('has lists at their cells when a row is put in above them, in the page and in the file', async () => {
    await sheet.page.getByRole('button', { name: 'New from template' }).click();
    await expect.poll(status, { timeout: 15_000 }).toMatch(/fresh copy/);
    await sheet.menu('Conditions!B8', 'Insert', /rows above/);
    await expect.poll(() => sheet.value('Conditions!B8'), { timeout: 15_000 }).toBeNull();
    await sheet.select('Conditions!B16');
    const list = sheet.page.locator('.nw-pick');
    await expect.poll(() => list.textContent(), { timeout: 15_000 }).toContain('metric or inch');
    const { sheets } = await readWorkbook(readFileSync(await save('shifted.xlsx')));
    const [units] = (sheets.find(({ name }) => name === 'Conditions')?.extras.lists ?? []).filter(
      ({ title }) => title === 'Report units',
    );
    expect(units?.blocks.map(({ startRow }) => startRow)).toEqual([15]);
  });

  it('has defined names at their cells when rows are put in, sheets get other names and names are added', async () => {
    await fresh();
    const rows = await sheet.value('Results!B4');
    await sheet.menu('Units!A3', 'Delete', 'Delete Selected Row');
    await expect.poll(() => sheet.value('Units!A3')).toBe('Unit');
    await sheet.tab('Parts', 'Rename');
    await sheet.page.waitForTimeout(500);
    await sheet.page.keyboard.press('Control+a');
    await sheet.page.keyboard.type("Tom's gear");
    await sheet.page.keyboard.press('Enter');
    await expect.poll(() => sheet.value("'Tom''s gear'!A4")).toBe('Rig');
    const file = await save('named.xlsx');
    const { parts, layout } = await readWorkbook(readFileSync(file));
    const names = partText(parts, layout.workbook) ?? '';
    expect(names).toMatch(/name="Units"[^>]*>Units!\$A\$3:/);
    expect(names).toMatch(/name="Parts"[^>]*>'Tom(?:'|&apos;){2}s gear'!\$A\$4:/);
    await open(file);
    await expect.poll(() => sheet.value('Results!B4'), { timeout: 60_000 }).toBe(rows);
    await expect.poll(() => sheet.value('Results!A10'), { timeout: 60_000 }).toBe('Unit');
  });

  it('has lists at their cells when cells alone come and go beside them, and as they were when that is undone', async () => {
    await fresh();
    const unitsAt = async (name: string): Promise<string[]> => {
      const { sheets } = await readWorkbook(readFileSync(await save(name)));
      await sheet.select('Conditions!A1');
      return (sheets.find((one) => one.name === 'Conditions')?.extras.lists ?? [])
        .filter(({ title }) => title === 'Report units')
        .flatMap(({ blocks }) => blocks.map(blockName));
    };
    const list = sheet.page.locator('.nw-pick');
    await sheet.menu('Conditions!B8', 'Insert', 'Move Down');
    await expect.poll(() => sheet.value('Conditions!B16')).toBe('metric');
    await sheet.select('Conditions!B16');
    await expect.poll(() => list.textContent()).toContain('Report units');
    // the names beside the values stay where they are
    expect(await sheet.value('Conditions!A15')).toBe('Report units');
    expect(await unitsAt('cells-in.xlsx')).toEqual(['B16']);
    await sheet.page.keyboard.press('Control+z');
    await expect.poll(() => sheet.value('Conditions!B15')).toBe('metric');
    expect(await unitsAt('cells-undone.xlsx')).toEqual(['B15']);
    // all cells of the list go
    await sheet.menu('Conditions!B15', 'Delete', 'Move Up');
    await expect.poll(() => sheet.value('Conditions!B15')).toBe(20);
    expect(await unitsAt('cells-out.xlsx')).toEqual([]);
    await sheet.page.keyboard.press('Control+z');
    await sheet.menu('Conditions!B15', 'Delete', 'Delete Selected Row');
    await expect.poll(() => sheet.value('Conditions!A15')).toBe('Set-up');
    await sheet.page.keyboard.press('Control+z');
    await expect.poll(() => sheet.value('Conditions!A15')).toBe('Report units');
    expect(await unitsAt('row-back.xlsx')).toEqual(['B15']);
    await sheet.page.keyboard.press('Control+y');
    await expect.poll(() => sheet.value('Conditions!A15')).toBe('Set-up');
    expect(await unitsAt('row-out.xlsx')).toEqual([]);
  });

  it('has the lists and charts of a sheet in a copy of it, in the page and in the file', async () => {
    await sheet.select('Conditions!A1');
    await sheet.tab('Conditions', 'Copy');
    await expect.poll(() => sheet.value('Conditions (Copy)!A4')).toBe('Name');
    await sheet.select("'Conditions (Copy)'!B5");
    await expect.poll(() => sheet.page.locator('.nw-pick').textContent()).toContain('Gas');
    const { sheets } = await readWorkbook(readFileSync(await save('copied.xlsx')));
    const lists = (name: string) => sheets.find((one) => one.name === name)?.extras.lists.map(({ title }) => title);
    expect(lists('Conditions (Copy)')).toEqual(lists('Conditions'));
    expect(lists('Conditions')).toContain('Gas');
  });

  it('says what the file will not keep before it is written, and writes nothing when told so', async () => {
    const parts = readParts(readFileSync('templates/narrows-empty.xlsx'));
    parts.set('xl/vbaProject.bin', new Uint8Array([1]));
    const buffer = Buffer.from(writeParts(parts));
    const mimeType = 'application/octet-stream';
    await sheet.page.getByLabel('Workbook to open').setInputFiles({ name: 'macros.xlsx', mimeType, buffer });
    await sheet.page
      .getByRole('button', { name: 'Discard them' })
      .click({ timeout: 3_000 })
      .catch(() => undefined);
    await expect.poll(status, { timeout: 15_000 }).toMatch(/^Opened macros/);
    let written = 0;
    sheet.page.on('download', () => {
      written += 1;
    });
    await sheet.page.getByRole('button', { name: 'Save as .xlsx' }).click();
    await sheet.page.getByText('What the file will not keep: Macros are left out.').waitFor();
    await sheet.page.getByRole('button', { name: 'Do not save' }).click();
    expect(written).toBe(0);
    await sheet.page.getByRole('button', { name: 'Save as .xlsx' }).click();
    await sheet.page.getByRole('button', { name: 'Save all the same' }).click();
    await expect.poll(status, { timeout: 15_000 }).toMatch(/^Saved macros\.xlsx\. Macros are left out\.$/);
    expect(written).toBe(1);
  });

  it('asks before changes are lost, and keeps them when told to', async () => {
    await sheet.type('Notes!H8', '7');
    await sheet.page.getByRole('button', { name: 'New from template' }).click();
    await sheet.page.getByRole('button', { name: 'Keep working' }).click();
    expect(await sheet.value('Notes!H8')).toBe(7);
    await sheet.page.getByRole('button', { name: 'New from template' }).click();
    await sheet.page.getByRole('button', { name: 'Discard them' }).click();
    await expect.poll(status, { timeout: 15_000 }).toMatch(/fresh copy/);
    expect(await sheet.value('Notes!H8')).toBeNull();
  });

  it('says in words that a file is no workbook, and keeps the one that is open', async () => {
    await sheet.page
      .getByLabel('Workbook to open')
      .setInputFiles({ name: 'note.xlsx', mimeType: 'application/octet-stream', buffer: Buffer.from('no zip') });
    await expect.poll(status, { timeout: 15_000 }).toMatch(/note\.xlsx failed: /);
    expect(await sheet.value('Start!C12')).toBeGreaterThanOrEqual(120);
  });

  it('has had no fault in all of this', () => {
    expect(sheet.trouble).toEqual([]);
  });
});
