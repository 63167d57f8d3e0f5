import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type SheetPage, type SheetTests, startSheetTests } from './sheet-page.ts';

/** Puts text on the clipboard as another spreadsheet does, and pastes it into the grid with a real paste event. */
async function paste(sheet: SheetPage, kinds: Record<string, string>): Promise<void> {
  await sheet.page.evaluate(async (given) => {
    const items = Object.entries(given).map(([type, text]) => [type, new Blob([text], { type })] as const);
    await navigator.clipboard.write([new ClipboardItem(Object.fromEntries(items))]);
  }, kinds);
  await sheet.page.keyboard.press('Control+v');
}

describe('what a person does all day', () => {
  let tests: SheetTests;
  let sheet: SheetPage;
  beforeAll(async () => {
    tests = await startSheetTests();
    sheet = await tests.open();
    await sheet.page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
  });
  afterAll(() => tests?.close());

  const status = () => sheet.page.locator('.nw-status').textContent();

  it('takes an entry back and gives it again', async () => {
    await sheet.type('Notes!H1', '41');
    await sheet.type('Notes!H1', '42');
    await sheet.page.keyboard.press('Control+z');
    await expect.poll(() => sheet.value('Notes!H1')).toBe(41);
    await sheet.page.keyboard.press('Control+y');
    await expect.poll(() => sheet.value('Notes!H1')).toBe(42);
  });

  it('takes in a table of another spreadsheet, tab-separated', async () => {
    await sheet.select('Notes!H3');
    await paste(sheet, { 'text/plain': 'Unit\tVolume\nA\t8.5\nB\t-12\n' });
    await expect
      .poll(() => sheet.values(['Notes!H3', 'Notes!I3', 'Notes!H4', 'Notes!I4', 'Notes!I5']))
      .toEqual(['Unit', 'Volume', 'A', 8.5, -12]);
    await sheet.type('Notes!K3', '=SUM(I4:I5)');
    expect(await sheet.value('Notes!K3')).toBeCloseTo(-3.5, 12);
  });

  it('takes in the same as the table that spreadsheets put beside the text', async () => {
    await sheet.select('Notes!H7');
    await paste(sheet, {
      'text/plain': 'Unit\tVolume\nC\t3\n',
      'text/html': '<table><tr><td>Unit</td><td>Volume</td></tr><tr><td>C</td><td>3</td></tr></table>',
    });
    await expect
      .poll(() => sheet.values(['Notes!H7', 'Notes!I7', 'Notes!H8', 'Notes!I8']))
      .toEqual(['Unit', 'Volume', 'C', 3]);
  });

  it('takes in a table whose first cell is blank, with cells of several lines, quotes and signs of HTML', async () => {
    await sheet.select('Notes!N3');
    await paste(sheet, { 'text/plain': '\tVolume\r\nA\t"two\nlines"\r\n<b>B</b>\t3/8"\r\n' });
    await expect
      .poll(() => sheet.values(['Notes!N3', 'Notes!O3', 'Notes!N4', 'Notes!O4', 'Notes!N5', 'Notes!O5', 'Notes!N6']))
      .toEqual([null, 'Volume', 'A', 'two\nlines', '<b>B</b>', '3/8"', null]);
  });

  it('copies a formula to another cell, where its references follow', async () => {
    await sheet.type('Notes!J4', '=NARROWS.SERIES(I4,8.5)');
    await sheet.select('Notes!J4');
    await sheet.page.keyboard.press('Control+c');
    await sheet.page.waitForTimeout(300);
    await sheet.select('Notes!J8');
    await sheet.page.keyboard.press('Control+v');
    // 1/(1/3 + 1/8.5)
    await expect.poll(() => sheet.value('Notes!J8')).toBeCloseTo(1 / (1 / 3 + 1 / 8.5), 9);
  });

  it('fills down by the corner of the selection, where references follow', async () => {
    await sheet.page.locator('footer button').first().click();
    await sheet.page.waitForTimeout(500);
    const address = (await sheet.page.getByRole('status', { name: 'Selected cell' }).textContent()) ?? '';
    const added = /^(.*)!/.exec(address)?.[1] ?? '';
    for (const [cell, text] of [
      ['A1', '1'],
      ['A2', '2'],
      ['A3', '5'],
      ['B1', '=NARROWS.SERIES(A1,A1)'],
    ] as const)
      await sheet.type(`${added}!${cell}`, text);
    await sheet.select(`${added}!B1`);
    const [first, last] = [await sheet.place('B1'), await sheet.place('B3')];
    await sheet.page.mouse.move(first.x + first.width, first.y + first.height);
    await sheet.page.mouse.down();
    await sheet.page.mouse.move(last.x + last.width / 2, last.y + last.height / 2, { steps: 5 });
    await sheet.page.mouse.up();
    // two equal conductances in series pass half of one
    await expect
      .poll(() => sheet.values(['B1', 'B2', 'B3', 'B4'].map((cell) => `${added}!${cell}`)), { timeout: 15_000 })
      .toEqual([0.5, 1, 2.5, null]);
  });

  it('offers the list of a cell, by keyboard', async () => {
    await sheet.select('Conditions!B5');
    const list = sheet.page.locator('.nw-pick select');
    await list.waitFor();
    await sheet.page.keyboard.press('Alt+ArrowDown');
    await expect.poll(() => list.evaluate((element) => element === document.activeElement)).toBe(true);
    await list.selectOption('nitrogen');
    await sheet.page.keyboard.press('Enter');
    await expect.poll(() => sheet.value('Conditions!B5')).toBe('nitrogen');
    await sheet.page.keyboard.press('Control+z');
    await expect.poll(() => sheet.value('Conditions!B5')).toBe('air');
    await sheet.select('Units!F6');
    await expect.poll(() => list.locator('option').count()).toBeGreaterThan(4);
    await sheet.select('Notes!A1');
    await expect.poll(() => sheet.page.locator('.nw-pick').isVisible()).toBe(false);
  });

  it('says what to do when an entry is not in the list of its cell, until the next edit, and not when it is', async () => {
    await sheet.type('Units!F6', 'no such rig');
    await expect
      .poll(status, { timeout: 15_000 })
      .toMatch(/^Not in its list: F6 \(no such rig\)\. Pick with Alt\+↓, or add it to Parts!P\d+:P\d+\.$/);
    const line = sheet.page.locator('.nw-status');
    // all of it can be read
    expect(
      await line.evaluate((one) => [one.scrollWidth - one.clientWidth, one.scrollHeight - one.clientHeight]),
    ).toEqual([0, 0]);
    await sheet.type('Units!F6', 'B core out, small hose');
    await expect.poll(status).toBe('');
    await sheet.type('Conditions!B15', 'INCH');
    expect(await status()).toBe('');
    await sheet.type('Conditions!B15', 'feet');
    await expect.poll(status, { timeout: 15_000 }).toBe('Not in its list: B15 (feet). Pick with Alt+↓.');
    await sheet.type('Conditions!B15', 'metric');
    await expect.poll(status).toBe('');
    // what our functions know is listed on a hidden sheet, where an entry would change nothing
    await sheet.type('Conditions!B5', 'oxygenium');
    await expect.poll(status, { timeout: 15_000 }).toBe('Not in its list: B5 (oxygenium). Pick with Alt+↓.');
    expect(await sheet.page.locator('.nw-pick p').textContent()).not.toContain('new entry');
    await sheet.type('Conditions!B5', 'air');
    await expect.poll(status).toBe('');
    // names of parts are free: the list offers those of the library
    const part = String(await sheet.value('Parts!B8'));
    await sheet.type('Parts!B8', 'my own depressor');
    expect(await status()).toBe('');
    await sheet.type('Parts!B8', part);
    await sheet.type('Conditions!B15', 'feet');
    await expect.poll(status, { timeout: 15_000 }).toBe('Not in its list: B15 (feet). Pick with Alt+↓.');
    await sheet.type('Conditions!B15', 'metric');
    await expect.poll(status).toBe('');
    await sheet.select('Units!F6');
    await expect
      .poll(() => sheet.page.locator('.nw-pick p').textContent())
      .toMatch(/The list is Parts!P\d+:P\d+: type a new entry there\.$/);
  });

  it('draws the charts of the sheet in view from its cells, and tells them to those who cannot see', async () => {
    await sheet.select('Compare!A1');
    const chart = sheet.page.locator('.nw-charts svg').first();
    await expect.poll(() => chart.getAttribute('aria-label')).toMatch(/minutes/i);
    const bars = () => chart.locator('rect').count();
    await expect.poll(bars).toBeGreaterThan(5);
    const widths = () => chart.locator('rect').evaluateAll((all) => all.map((bar) => bar.getAttribute('width')).join());
    const texts = () => chart.locator('text').allTextContents();
    const before = `${await widths()} ${await texts()}`;
    const volume = await sheet.value('Compare!B4');
    await sheet.type('Compare!B4', String(3.7 * Number(volume)));
    await expect.poll(async () => `${await widths()} ${await texts()}`).not.toBe(before);
    await sheet.page.keyboard.press('Control+z');
    await sheet.select('Curves!A1');
    await expect.poll(() => sheet.page.locator('.nw-charts svg path[class^="nw-line-"]').count()).toBeGreaterThan(3);
    await sheet.select('Start!A1');
    await expect.poll(() => sheet.page.locator('.nw-charts').isVisible()).toBe(false);
  });

  it('keeps charts shut where frozen rows would leave the table no room, until somebody opens them', async () => {
    const panel = sheet.page.locator('.nw-charts details');
    await sheet.select('Compare!A1');
    await expect.poll(() => panel.evaluate((all: HTMLDetailsElement) => all.open)).toBe(true);
    await sheet.select('Results!A1');
    await expect.poll(() => panel.evaluate((all: HTMLDetailsElement) => all.open)).toBe(false);
    // eight rows of the table at least, of 20 px
    const [header, bottom] = await Promise.all([
      sheet.place('A10'),
      sheet.page.locator('.nw-charts').evaluate((one) => one.getBoundingClientRect().top),
    ]);
    expect(bottom - 40 - (header?.y ?? bottom)).toBeGreaterThan(8 * 20);
    await sheet.page.getByText('Charts of this sheet (1)').click();
    await expect.poll(() => sheet.page.locator('.nw-charts svg').first().isVisible()).toBe(true);
    await sheet.select('Crew!A1');
    await expect.poll(() => panel.evaluate((all: HTMLDetailsElement) => all.open)).toBe(true);
  });

  it('says that a chart has nothing to draw, in place of bare axes', async () => {
    await sheet.select('Compare!B4');
    const picture = sheet.page.locator('.nw-charts svg').first();
    await expect.poll(() => picture.textContent()).toContain('A core in, small');
    await sheet.page.keyboard.press('Delete');
    await expect.poll(() => picture.textContent()).toContain('Nothing to draw yet');
    expect(await picture.getAttribute('aria-label')).toContain('Nothing to draw yet');
    expect(await picture.locator('path').count()).toBe(0);
    await sheet.page.keyboard.press('Control+z');
    await expect.poll(() => picture.textContent()).toContain('A core in, small');
  });

  it('says before it saves that lists stay where they were when cells were cut and pasted on their sheet', async () => {
    await sheet.type('Units!V6', '3');
    await sheet.select('Units!V6');
    await sheet.page.keyboard.press('Control+x');
    await sheet.page.waitForTimeout(300);
    await sheet.select('Units!V9');
    await sheet.page.keyboard.press('Control+v');
    await expect.poll(() => sheet.value('Units!V9')).toBe(3);
    await sheet.page.getByRole('button', { name: 'Save as .xlsx' }).click();
    const said = sheet.page.getByText(/On Units, .*lists.* stay where they were, since cells changed places/);
    await expect.poll(() => said.isVisible(), { timeout: 15_000 }).toBe(true);
    await sheet.page.getByRole('button', { name: 'Do not save' }).click();
  });

  it('writes the sheet in view as guarded comma-separated text', async () => {
    await sheet.type('Notes!H12', "'=2+3");
    await sheet.type('Notes!H14', '=DATE(2026,11,28)');
    await sheet.type('Notes!H15', '2026-11-28 14:30');
    await sheet.type('Notes!H16', '14:30');
    await sheet.select('Notes!H13');
    const download = sheet.page.waitForEvent('download');
    await sheet.page.getByRole('button', { name: 'Sheet as .csv' }).click();
    const file = await download;
    expect(file.suggestedFilename()).toBe('narrows - Notes.csv');
    const text = readFileSync(await file.path(), 'utf8');
    expect(text).toContain('8.5');
    for (const date of ['2026-11-28', '2026-11-28T14:30:00', '14:30:00'])
      expect(text).toMatch(new RegExp(`,${date}[,\\r]`));
    expect(text).toMatch(/,-12,/);
    for (const line of text.split('\r\n')) {
      for (const field of line.split(/,(?=(?:[^"]*"[^"]*")*[^"]*$)/)) {
        if (!/^[+-]?[\d.]+(?:e-?\d+)?$/.test(field)) expect(field.replace(/^"/, '')).not.toMatch(/^[=+@-]/);
      }
    }
    await expect.poll(status).toMatch(/values only/);
  });

  /** dry-outs in a column: long enough to be stopped on a quick machine */
  const LONG = 2400;
  it('shows how far a long calculation is, stops it when told to, says what that leaves, and goes on', async () => {
    const rows = Array.from(
      { length: LONG },
      (_, row) => `=NARROWS.DRY.TIME(${10 + row / 100},5,Parts,"A core in, small hose",Conditions)`,
    );
    await sheet.select('Notes!N1');
    await paste(sheet, { 'text/plain': `${rows.join('\n')}\n` });
    await sheet.page.getByRole('button', { name: 'Stop', exact: true }).click();
    const working = sheet.page.locator('.nw-working');
    await expect.poll(() => working.textContent()).toContain('older than what they rest on');
    expect(await sheet.value(`Notes!N${LONG}`)).not.toEqual(expect.any(Number));
    await working.getByRole('button', { name: 'Calculate' }).click();
    await expect.poll(() => sheet.value(`Notes!N${LONG}`), { timeout: 200_000 }).toEqual(expect.any(Number));
    expect(await sheet.value('Notes!N1')).toBeLessThan(Number(await sheet.value(`Notes!N${LONG}`)));
    await expect.poll(() => working.isVisible()).toBe(false);
  }, 240_000);

  it('opens a workbook that is dropped on the page', async () => {
    const bytes = readFileSync('templates/narrows-template.xlsx').toString('base64');
    await sheet.page.evaluate((text) => {
      const data = new DataTransfer();
      const content = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
      data.items.add(new File([content], 'dropped.xlsx'));
      data.items.add(new File([content], 'another.xlsx'));
      for (const type of ['dragover', 'drop']) {
        const event = new DragEvent(type, { dataTransfer: data, bubbles: true, cancelable: true });
        document.querySelector('.nw-sheet')?.dispatchEvent(event);
      }
    }, bytes);
    await sheet.page.getByRole('button', { name: 'Discard them' }).click();
    await expect.poll(status).toMatch(/^Opened dropped\.xlsx .*left out: another\.xlsx/);
    expect(await sheet.value('Notes!H3')).toBeNull();
  });

  it('has had no fault in all of this', () => {
    expect(sheet.trouble).toEqual([]);
  });
});
