import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { templateModel } from '../../templates/model.ts';
import { type SheetPage, type SheetTests, startSheetTests } from './sheet-page.ts';

describe('the task pane beside the sheet', () => {
  let tests: SheetTests;
  let sheet: SheetPage;
  beforeAll(async () => {
    tests = await startSheetTests();
    sheet = await tests.open();
  });
  afterAll(() => tests?.close());

  const tab = (name: string) => sheet.page.locator('.nw-pane').getByRole('tab', { name });
  const selected = () => sheet.page.getByRole('status', { name: 'Selected cell' });

  it('shows cautions first, local codes before all, and those of the step and the refrigerant', async () => {
    await sheet.page.getByText('Local codes and licensed practice come first.', { exact: true }).waitFor();
    const notes = sheet.page.getByRole('list', { name: 'Caution notes' });
    const before = await notes.getByRole('listitem').allTextContents();
    expect(before[0]).toMatch(/local codes/i);
    await sheet.page.getByLabel('Step in hand').selectOption('recovery');
    await sheet.page.getByLabel('Refrigerant').selectOption('R-290');
    await expect.poll(() => notes.getByRole('listitem').allTextContents()).not.toEqual(before);
  });

  it('is worked by keyboard: arrows move between its sections', async () => {
    await tab('Cautions').focus();
    await sheet.page.keyboard.press('ArrowRight');
    await expect.poll(() => tab('Functions').getAttribute('aria-selected')).toBe('true');
    await sheet.page.keyboard.press('End');
    await expect.poll(() => tab('Workbook').getAttribute('aria-selected')).toBe('true');
    await sheet.page.keyboard.press('ArrowRight');
    await expect.poll(() => tab('Cautions').getAttribute('aria-selected')).toBe('true');
  });

  it('finds a function, helps with its arguments and puts the formula into the selected cell', async () => {
    await sheet.select('Notes!H2');
    await tab('Functions').click();
    await sheet.page.getByLabel('Search functions').fill('bore of copper');
    await sheet.page.getByLabel('Search functions').fill('tube.bore');
    await sheet.page.getByRole('button', { name: /^TUBE\.BORE/ }).click();
    const insert = sheet.page.getByRole('button', { name: 'Insert at the selected cell' });
    await expect.poll(() => insert.isDisabled()).toBe(true);
    await sheet.page.getByLabel(/^size/).fill('3/8 in');
    await expect
      .poll(() => sheet.page.getByLabel('Formula', { exact: true }).textContent())
      .toBe('=NARROWS.TUBE.BORE("3/8 in")');
    await insert.click();
    await sheet.page.getByText('Inserted at Notes!H2.').waitFor();
    // Inside diameter of 3/8 in tube, ASTM B280: 0.375 in less twice the wall of 0.032 in.
    await expect.poll(() => sheet.value('Notes!H2')).toBeCloseTo((0.375 - 2 * 0.032) * 25.4, 3);
  });

  it('lists the faults of the sheet in words and jumps to the cell', async () => {
    await sheet.type('Notes!H4', '=NARROWS.TUBE.BORE("9/7 in")');
    await sheet.select('Notes!A1');
    await tab('Workbook').click();
    await sheet.page.getByRole('button', { name: 'Check this sheet' }).click();
    await sheet.page.getByText('1 cell of this sheet with a fault.').waitFor();
    const faults = sheet.page.getByRole('list', { name: 'Faults found' });
    expect(await faults.textContent()).toContain('9/7 in');
    await faults.getByRole('button', { name: 'Notes!H4' }).click();
    await expect.poll(() => selected().textContent()).toContain('Notes!H4');
    await sheet.type('Notes!H4', '1');
    await tab('Workbook').click();
    await sheet.page.getByRole('button', { name: 'Check the workbook' }).click();
    const check = sheet.page.locator('.nw-tool').first();
    await expect.poll(() => check.textContent()).toContain('No cell of this workbook ends in an error.');
  });

  it('lists the cells that only hold the error of another one after those with a fault of their own', async () => {
    await sheet.type('Notes!G4', '=H4');
    await sheet.type('Notes!H4', '=NARROWS.TUBE.BORE("9/7 in")');
    await sheet.type('Notes!H5', '=1+NOTHING');
    await sheet.select('Notes!A1');
    await tab('Workbook').click();
    await sheet.page.getByRole('button', { name: 'Check this sheet' }).click();
    await sheet.page
      .getByText(
        '3 cells of this sheet with a fault. 1 cell of them, last in the list, only holds the error of another cell.',
      )
      .waitFor();
    const found = sheet.page.getByRole('list', { name: 'Faults found' }).getByRole('button');
    expect(await found.allTextContents()).toEqual(['Notes!H4', 'Notes!H5', 'Notes!G4']);
    for (const cell of ['G4', 'H4', 'H5']) await sheet.type(`Notes!${cell}`, '1');
  });

  it('says where on the sheet the fault of a table is, and jumps there', async () => {
    // the header of Units is its row 4: a row of the sheet is three more than the row of the table
    const rig = String(await sheet.value('Units!F6'));
    await sheet.type('Units!F6', 'no such rig');
    await sheet.type('Notes!H4', '=NARROWS.LABOUR.RISK(Units,Parts,Rates,Factors,Runs,Conditions)');
    await sheet.select('Notes!A1');
    await tab('Workbook').click();
    await sheet.page.getByRole('button', { name: 'Check this sheet' }).click();
    const fault = sheet.page.getByRole('list', { name: 'Faults found' }).getByRole('listitem').first();
    await expect.poll(() => fault.textContent()).toMatch(/Units!F6: There is no rig .*On the sheet: Units!F6/);
    await fault.getByRole('button', { name: 'Units!F6' }).click();
    await expect.poll(() => selected().textContent()).toContain('Units!F6');
    await sheet.type('Units!F6', rig);
    await sheet.type('Notes!H4', '1');
  });

  it('points at the cause first where a rig of the project is misspelt, once for all cells that fail for it', async () => {
    const rig = String(await sheet.value('Units!F6'));
    await sheet.type('Units!F6', 'no such rig');
    await sheet.select('Notes!A1');
    await tab('Workbook').click();
    await sheet.page.getByRole('button', { name: 'Check the workbook' }).click();
    const faults = sheet.page.getByRole('list', { name: 'Faults found' }).getByRole('listitem');
    await expect.poll(() => faults.first().textContent()).toMatch(/Units!F6: There is no rig .*On the sheet: Units!F6/);
    const all = await faults.allTextContents();
    for (const words of all) expect(words).toContain('There is no rig "no such rig"');
    // the cell with the place of the cause, and the row of Results, which names none; all else repeats them
    const status = await sheet.page.locator('.nw-tool').first().getByRole('status').textContent();
    expect(status).toBe(
      `${all.length} cells of this workbook with a fault. ${all.length - 2} cells of them, last in the list, only hold the error of another cell.`,
    );
    await sheet.type('Units!F6', rig);
  });

  it('notes what stands directly below a table that our functions read, and what to do about it', async () => {
    const check = async () => {
      await sheet.select('Notes!A1');
      await tab('Workbook').click();
      await sheet.page.getByRole('button', { name: 'Check the workbook' }).click();
    };
    const said = sheet.page.locator('.nw-tool').first();
    const notes = sheet.page.getByRole('list', { name: 'Notes' }).getByRole('listitem');
    // none in the workbook that ships
    await check();
    await expect.poll(() => said.getByRole('status').textContent()).toBe('No cell of this workbook ends in an error.');
    const range = templateModel().names?.find(({ name }) => name === 'Units')?.range;
    const last = Number(/\d+$/.exec(range ?? '')?.[0]);
    await sheet.type(`Units!A${last + 1}`, 'X1');
    await check();
    await expect
      .poll(() => said.getByRole('status').textContent())
      .toBe('No cell of this workbook ends in an error. 1 note below.');
    expect(await notes.allTextContents()).toEqual([
      expect.stringMatching(new RegExp(`^Units!A${last + 1}This row is not read: .*insert a row inside the table`)),
    ]);
    await sheet.select(`Units!A${last + 1}`);
    await sheet.page.keyboard.press('Delete');
  });

  it('notes parts with a name of the library and other figures in its check, and writes the library’s when asked', async () => {
    const name = await sheet.value('Parts!B6');
    await sheet.type('Parts!B6', 'port 3/8 in flare');
    await sheet.select('Notes!A1');
    await tab('Workbook').click();
    await sheet.page.getByRole('button', { name: 'Check the workbook' }).click();
    const note = sheet.page.getByRole('list', { name: 'Notes' }).getByRole('listitem');
    // 0.188 in and 0.281 in, through bores of flares
    await expect
      .poll(() => note.allTextContents())
      .toEqual([
        expect.stringMatching(/^Parts!D6port 3\/8 in flare: the row's own Bore 4\.7752 mm counts, not .* 7\.1374 mm/),
      ]);
    await note.getByRole('button', { name: "Take the library's figures" }).click();
    await expect.poll(() => sheet.value('Parts!D6')).toBe(7.1374);
    // the button stays, and the focus with it
    await expect.poll(() => sheet.page.evaluate(() => document.activeElement?.textContent)).toBe('Done');
    await sheet.type('Parts!B6', String(name));
    await sheet.type('Parts!D6', '4.7752');
    await sheet.select('Notes!A1');
  });

  it('leaves sheets alone that are there already when the template is added', async () => {
    await sheet.page.getByRole('button', { name: 'Add the template sheets' }).click();
    await sheet.page.getByText(/Nothing added\. Already there and left alone: .*Results/).waitFor();
  });

  it('freezes our formulas to the values that they show, after it has asked', async () => {
    await sheet.type('Notes!H10', '=NARROWS.CAUTIONS("charging")');
    const shown = await sheet.values(['Notes!H2', 'Notes!H10', 'Notes!I11']);
    await tab('Workbook').click();
    await sheet.page.getByRole('button', { name: 'Freeze this sheet to values' }).click();
    await sheet.page.getByRole('button', { name: 'Freeze now' }).click();
    await sheet.page.getByText('2 formulas replaced by values.').waitFor();
    expect(await sheet.values(['Notes!H2', 'Notes!H10', 'Notes!I11'])).toEqual(shown);
    await sheet.select('Notes!H10');
    expect(await sheet.value('Notes!H10')).toBe(shown[1]);
  });

  it('keeps the frozen formulas on a sheet, and puts them back', async () => {
    expect(await sheet.value("'Formulas kept'!A2")).toBe('Notes');
    expect(await sheet.values(["'Formulas kept'!D2", "'Formulas kept'!D3"])).toEqual([
      '=NARROWS.TUBE.BORE("3/8 in")',
      '=NARROWS.CAUTIONS("charging")',
    ]);
    const shown = await sheet.values(['Notes!H2', 'Notes!H10', 'Notes!I11']);
    await tab('Workbook').click();
    await sheet.page.getByRole('button', { name: 'Put the formulas back' }).click();
    await sheet.page.getByText('2 formulas put back.').waitFor();
    await expect.poll(() => sheet.values(['Notes!H2', 'Notes!H10', 'Notes!I11'])).toEqual(shown);
    expect(await sheet.value("'Formulas kept'!A2")).toBeNull();
    await sheet.page.getByRole('button', { name: 'Put the formulas back' }).click();
    await sheet.page.getByText('No formulas are kept of this sheet.').waitFor();
  });

  it('puts a formula back where rows have moved it, with its references, and over no entry of a person', async () => {
    const pane = sheet.page.locator('.nw-pane');
    const button = (name: string) => pane.getByRole('button', { name });
    const formula = (cell: string) =>
      sheet.page.evaluate(
        (at) => (window as unknown as { narrows: { formula(at: string): string | null } }).narrows.formula(at),
        cell,
      );
    for (const cell of ['Notes!H2', 'Notes!H10']) {
      await sheet.select(cell);
      await sheet.page.keyboard.press('Delete');
    }
    await sheet.type('Notes!P5', '2');
    await sheet.type('Notes!P6', '=NARROWS.CONVERT(P5,"in","mm")');
    await sheet.type('Notes!S6', '="NARROWS.X"');
    await sheet.type('Notes!P8', '=NARROWS.CAUTIONS("charging")');
    // two inches in millimetres
    await expect.poll(() => sheet.value('Notes!P6')).toBeCloseTo(50.8, 6);
    const table = await sheet.values(['Notes!P8', 'Notes!Q8', 'Notes!P9', 'Notes!Q9']);
    await tab('Workbook').click();
    await button('Freeze this sheet to values').click();
    await button('Freeze now').click();
    await pane.getByText(/formulas replaced by values/).waitFor();
    expect(await formula('Notes!S6'), 'text that only names a function of ours').toBe('="NARROWS.X"');
    await sheet.menu('Notes!A3', 'Insert', /rows above/);
    await expect.poll(() => sheet.value('Notes!P7')).toBeCloseTo(50.8, 6);
    await sheet.type('Notes!Q10', 'my own note');
    await tab('Workbook').click();
    await button('Put the formulas back').click();
    await pane.getByText(/Left as they are.*P9 \(Q10 holds something else than was frozen there\)/).waitFor();
    expect(await sheet.value('Notes!Q10')).toBe('my own note');
    expect(await formula('Notes!P9')).toBeNull();
    expect(await formula('Notes!P7')).toBe('=NARROWS.CONVERT(P6,"in","mm")');
    await sheet.type('Notes!Q10', String(table[3] ?? ''));
    await tab('Workbook').click();
    await button('Put the formulas back').click();
    await pane.getByText('1 formula put back.').waitFor();
    await expect.poll(() => sheet.values(['Notes!P9', 'Notes!Q9', 'Notes!P10', 'Notes!Q10'])).toEqual(table);
    expect(await sheet.value("'Formulas kept'!A2")).toBeNull();
  });

  it('fits 320 px: grid or pane, nothing wider than the window', async () => {
    const narrow = await tests.open({ width: 320, height: 640, dark: true });
    await narrow.page.getByRole('button', { name: 'Pane' }).click();
    await narrow.page.locator('.nw-pane').getByRole('tab', { name: 'Functions' }).click();
    const wide = await narrow.page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    expect(wide).toBeLessThanOrEqual(0);
    const overflow = await narrow.page.evaluate(() => {
      const panel = document.querySelector('.nw-panel:not([hidden])');
      return panel === null ? 1 : panel.scrollWidth - panel.clientWidth;
    });
    expect(overflow).toBeLessThanOrEqual(0);
    expect(narrow.trouble).toEqual([]);
    await narrow.close();
  });

  it('has had no fault in all of this', () => {
    expect(sheet.trouble).toEqual([]);
  });
});
