import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type SheetPage, type SheetTests, startSheetTests } from './sheet-page.ts';

/**
 * Types into a cell. True where the results are in the cells before the page is through with the Enter key: what listens
 * last to the key hears of it after them, so nothing can have been drawn in between.
 */
async function atOnce(sheet: SheetPage, address: string, text: string): Promise<boolean> {
  await sheet.begin(address, text);
  await sheet.page.evaluate(() => {
    const here = window as unknown as { narrows: { calculated(): Promise<number> }; first: Promise<boolean> };
    const heard = new Promise<number>((resolve) =>
      addEventListener('keydown', () => resolve(performance.now()), { capture: true, once: true }),
    );
    here.first = Promise.all([here.narrows.calculated(), heard]).then(([written, through]) => written <= through);
  });
  await sheet.page.keyboard.press('Enter');
  const first = await sheet.page.evaluate(() => (window as unknown as { first: Promise<boolean> }).first);
  await sheet.page.evaluate(() => (window as unknown as { narrows: { idle(): Promise<void> } }).narrows.idle());
  return first;
}

describe('a value that was typed', () => {
  let tests: SheetTests;
  let sheet: SheetPage;
  beforeAll(async () => {
    tests = await startSheetTests('templates/narrows-empty.xlsx');
    sheet = await tests.open();
    await sheet.type('Notes!H1', '2');
    await sheet.type('Notes!H2', '=H1*10');
  });
  afterAll(() => tests?.close());

  it('is worked with before the page draws, where that was short the last time', async () => {
    // a machine that stands still for a moment makes any calculation long, and the one after it wait
    let first = false;
    for (let i = 3; i < 13 && !first; i++) first = await atOnce(sheet, 'Notes!H1', String(i));
    expect(first).toBe(true);
    await sheet.type('Notes!H1', '3');
    expect(await sheet.value('Notes!H2')).toBe(30);
  });

  it('lets the page draw first where that took long, until it is short again', async () => {
    await sheet.page.evaluate(() => {
      const real = performance.now.bind(performance);
      // the clock that the page reads says that each calculation is long
      let ahead = 0;
      performance.now = () => {
        ahead += 400;
        return real() + ahead;
      };
    });
    await sheet.type('Notes!H1', '4');
    await sheet.page.evaluate(() => Reflect.deleteProperty(performance, 'now'));
    expect(await atOnce(sheet, 'Notes!H1', '5')).toBe(false);
    expect(await sheet.value('Notes!H2')).toBe(50);
    let first = false;
    for (let i = 6; i < 16 && !first; i++) first = await atOnce(sheet, 'Notes!H1', String(i));
    expect(first).toBe(true);
  });

  it('takes the place of a formula, and a formula that of a value', async () => {
    await sheet.type('Notes!J1', '7');
    await sheet.type('Notes!J2', '=J1+1');
    await sheet.type('Notes!J3', '=J2*2');
    expect(await sheet.value('Notes!J3')).toBe(16);
    await sheet.type('Notes!J2', '20');
    expect(await sheet.value('Notes!J3')).toBe(40);
    await sheet.type('Notes!J2', '=J1+2');
    expect(await sheet.value('Notes!J3')).toBe(18);
    await sheet.type('Notes!J2', 'text');
    expect(await sheet.value('Notes!J3')).toBe('#VALUE!');
    await sheet.type('Notes!J1', '8');
    await sheet.type('Notes!J2', '=J1*3');
    expect(await sheet.value('Notes!J3')).toBe(48);
    await sheet.type('Notes!J1', '9');
    expect(await sheet.value('Notes!J3')).toBe(54);
  });

  it('has each layer of the grid drawn once, however many things on it are new', async () => {
    const count = () =>
      sheet.page.evaluate(() => {
        const here = window as unknown as { channels: number; MessageChannel: typeof MessageChannel };
        const before = here.channels;
        if (before === undefined) {
          const Real = here.MessageChannel;
          here.channels = 0;
          here.MessageChannel = class extends Real {
            constructor() {
              super();
              here.channels += 1;
            }
          };
        }
        return before ?? 0;
      });
    await count();
    await sheet.type('Notes!H1', '7');
    expect(await sheet.value('Notes!H2')).toBe(70);
    // some 300 things are; what else uses channels makes a few
    expect(await count()).toBeLessThan(60);
  });
});
