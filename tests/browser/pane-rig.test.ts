import { readFile } from 'node:fs/promises';
import sax from 'sax';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type SheetPage, type SheetTests, startSheetTests } from './sheet-page.ts';

const RIG = 'A core in, small hose';
const NUMBER = /-?\d+(?:\.\d+)?/;

describe('the drawing of a rig', () => {
  let tests: SheetTests;
  let sheet: SheetPage;
  beforeAll(async () => {
    tests = await startSheetTests();
    sheet = await tests.open();
    await sheet.select('Parts!A6');
    await sheet.page.locator('.nw-pane').getByRole('tab', { name: 'Rig' }).click();
    await sheet.page.getByRole('table').waitFor();
  });
  afterAll(() => tests?.close());

  const shares = async () =>
    (await sheet.page.locator('.nw-rig-share').allTextContents()).map((text) => Number(NUMBER.exec(text)?.[0]));
  const rig = () => sheet.page.getByRole('combobox', { name: 'Rig' }).inputValue();
  const rows = () =>
    sheet.page
      .locator('.nw-shares tbody tr')
      .evaluateAll((lines) => lines.map((line) => [...line.children].map((cell) => cell.textContent ?? '')));

  it('shows the rig of the selected row, of parts and of units, until another is picked', async () => {
    await expect.poll(rig).toBe(RIG);
    await sheet.select('Units!B17');
    await expect.poll(rig).toBe(await sheet.value('Units!F17'));
    await sheet.select('Parts!A6');
    await expect.poll(rig).toBe(RIG);
  });

  it('says that a renamed part kept its figures, in the pane and on the sheet, and takes the library’s as one step', async () => {
    const cells = ['Parts!D7', 'Parts!E7'] as const;
    const before = await sheet.values([...cells]);
    await sheet.type('Parts!B7', 'hose 1/2 in x 6 ft');
    await sheet.select('Parts!B7');
    const words = "the row's own Bore 4.7625 mm and Length 1.524 m count, not the library's 12.7 mm and 1.8288 m";
    const notes = sheet.page.getByRole('list', { name: 'Parts with figures of their own' }).getByRole('listitem');
    await expect.poll(() => notes.allTextContents()).toEqual([expect.stringContaining(words)]);
    await expect.poll(() => sheet.page.getByRole('status', { name: 'Selected cell' }).textContent()).toContain(words);
    await expect.poll(() => sheet.value('Parts!A3')).toContain(words);
    await notes.getByRole('button', { name: "Take the library's figures" }).click();
    await expect.poll(() => sheet.values([...cells])).toEqual([12.7, 1.8288]);
    await expect.poll(() => notes.count()).toBe(0);
    await expect.poll(() => sheet.value('Parts!A3')).toBeNull();
    await sheet.select('Parts!A6');
    await sheet.page.keyboard.press('Control+z');
    await expect.poll(() => sheet.values([...cells])).toEqual(before);
    await sheet.page.keyboard.press('Control+z');
    await expect.poll(() => sheet.value('Parts!B7')).toBe('hose 1/4 in x 5 ft');
    await expect.poll(() => notes.count()).toBe(0);
  });

  it('shows shares of the loss that make up the whole', async () => {
    const shown = await shares();
    expect(shown.length).toBeGreaterThan(3);
    // Each is rounded to 0.1 %.
    expect(Math.abs(shown.reduce((sum, share) => sum + share, 0) - 100)).toBeLessThanOrEqual(
      0.05 * shown.length + 1e-9,
    );
  });

  it('tells the same in a table as the function in a cell at the same pressure', async () => {
    await sheet.page.getByLabel(/^Pressure at the system/).fill('1 torr');
    await sheet.type('Notes!H2', `=NARROWS.RIG.PROFILE(Parts,"${RIG}","1 torr",Conditions)`);
    await expect.poll(() => sheet.value('Notes!H2'), { timeout: 10_000 }).toBe('Part');
    expect(await sheet.value('Notes!L2')).toMatch(/^Share of loss/);
    await expect.poll(rig).toBe(RIG);
    const told = await rows();
    for (const [i, [part, , , share]] of told.entries()) {
      const row = 4 + i;
      expect(part).toContain(String(await sheet.value(`Notes!H${row}`)));
      expect(Number(NUMBER.exec(share ?? '')?.[0])).toBeCloseTo(Number(await sheet.value(`Notes!L${row}`)), 1);
    }
    expect(await sheet.value(`Notes!H${4 + told.length}`)).toBeNull();
    await sheet.page.getByLabel(/^Pressure at the system/).fill('');
  });

  it('follows a bore that is changed in the sheet: a wider hose has less of the loss', async () => {
    await sheet.select('Parts!A7');
    const before = await rows();
    const at = before.findIndex(([part]) => part?.includes('hose'));
    await sheet.type('Parts!D7', '9.5');
    await expect.poll(async () => (await rows())[at]?.[1]).toBe('9.5 mm');
    const figure = (text: string | undefined) => Number(NUMBER.exec(text ?? '')?.[0]);
    expect(figure((await rows())[at]?.[3])).toBeLessThan(figure(before[at]?.[3]));
  });

  it('leaves as a picture: well-formed SVG without a style sheet, and PNG of three times the size', async () => {
    const saved = async (name: string) => {
      const [download] = await Promise.all([
        sheet.page.waitForEvent('download'),
        sheet.page.getByRole('button', { name }).click(),
      ]);
      return readFile(await download.path());
    };
    const svg = (await saved('Save SVG')).toString('utf8');
    let elements = 0;
    const parser = sax.parser(true);
    parser.onopentag = () => {
      elements += 1;
    };
    parser.onerror = (error) => {
      throw error;
    };
    parser.write(svg).close();
    expect(elements).toBeGreaterThan(30);
    expect(svg).toMatch(/^<svg[^>]* xmlns="http:\/\/www\.w3\.org\/2000\/svg"/);
    expect(svg).not.toMatch(/var\(|class=/);
    const png = await saved('Save PNG');
    // PNG signature, then width and height in the header (ISO/IEC 15948, 5.2 and 11.2.2).
    expect(png.subarray(0, 8).toString('latin1')).toBe('\x89PNG\r\n\x1a\n');
    expect(png.readUInt32BE(16)).toBe(3 * Number(/ width="(\d+)"/.exec(svg)?.[1]));
    expect(png.length).toBeGreaterThan(10_000);
  });

  it('says in words what is wrong with a pressure, and that a table is missing', async () => {
    const said = sheet.page.getByRole('status', { name: 'Rig drawn' });
    await sheet.page.getByLabel(/^Pressure at the system/).fill('5 parsec');
    await expect.poll(() => said.textContent()).toContain('parsec');
    await sheet.page.getByLabel(/^Pressure at the system/).fill('');
    await sheet.page.getByText('Tables that are read').click();
    await sheet.page.getByLabel(/^Parts:/).fill('Elsewhere');
    await expect.poll(() => said.textContent()).toContain('no range Elsewhere');
    await sheet.page.getByLabel(/^Parts:/).fill('Parts');
  });

  it('has had no fault in all of this', () => {
    expect(sheet.trouble).toEqual([]);
  });
});
