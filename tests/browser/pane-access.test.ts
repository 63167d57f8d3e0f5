import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { violations } from './axe.ts';
import { type SheetPage, type SheetTests, startSheetTests } from './sheet-page.ts';

/** The checker looks at every element by every rule, and the machine may have other work. */
const PATIENCE_MS = 180_000;
const TABS = ['Cautions', 'Functions', 'Rig', 'Workbook'] as const;
const LOOKS = [
  { width: 1280, height: 800, dark: false },
  { width: 1280, height: 800, dark: true },
  { width: 320, height: 640, dark: false },
  { width: 320, height: 640, dark: true },
] as const;

vi.setConfig({ testTimeout: PATIENCE_MS });

let tests: SheetTests;
beforeAll(async () => {
  tests = await startSheetTests();
});
afterAll(() => tests?.close());

const tab = (sheet: SheetPage, name: string) => sheet.page.locator('.nw-pane').getByRole('tab', { name });

async function openTab(sheet: SheetPage, name: (typeof TABS)[number]): Promise<void> {
  await tab(sheet, name).click();
  if (name === 'Rig') await sheet.page.getByRole('table').waitFor();
  if (name === 'Functions') {
    await sheet.page.getByLabel('Search functions').fill('tube.bore');
    const entry = sheet.page.getByRole('button', { name: /^TUBE\.BORE/ });
    if ((await entry.getAttribute('aria-expanded')) === 'false') await entry.click();
  }
}

describe('the pane by the accessibility checker', () => {
  for (const look of LOOKS) {
    it(`finds nothing at ${look.width} px, ${look.dark ? 'dark' : 'light'}, in any section`, async () => {
      const sheet = await tests.open(look);
      await sheet.select('Units!B6');
      if (look.width === 320) await sheet.page.getByRole('button', { name: 'Pane' }).click();
      for (const name of TABS) {
        await openTab(sheet, name);
        expect(await violations(sheet.page, { include: ['.nw-pane'] }), name).toEqual([]);
      }
      // The page as a whole: of the grid, which a library draws on a canvas with its own toolbar, nothing is ours.
      expect(await violations(sheet.page, { exclude: ['#nw-sheet'] })).toEqual([]);
      await sheet.close();
    });
  }

  it('finds nothing with text at twice its size, and nothing is wider than the window', async () => {
    const sheet = await tests.open({ width: 320, height: 640 });
    await sheet.page.evaluate(() => {
      document.documentElement.style.fontSize = '200%';
    });
    await sheet.select('Units!B6');
    await sheet.page.getByRole('button', { name: 'Pane' }).click();
    for (const name of TABS) {
      await openTab(sheet, name);
      expect(await violations(sheet.page, { include: ['.nw-pane'] }), name).toEqual([]);
      const wider = await sheet.page.evaluate(() => {
        const panel = document.querySelector('.nw-panel:not([hidden])');
        return Math.max(
          document.documentElement.scrollWidth - innerWidth,
          panel === null ? 1 : panel.scrollWidth - panel.clientWidth,
        );
      });
      expect(wider, name).toBeLessThanOrEqual(0);
    }
    await sheet.close();
  });
});

describe('the pane by keyboard alone', () => {
  it('goes through every control of each section in order, each with a focus to be seen', async () => {
    const sheet = await tests.open();
    await sheet.select('Units!B6');
    for (const name of TABS) {
      await openTab(sheet, name);
      const wanted = await sheet.page.evaluate(() => {
        const panel = document.querySelector('.nw-panel:not([hidden])');
        const all = panel?.querySelectorAll<HTMLElement>('button, input, select, summary, [tabindex="0"]') ?? [];
        return [...all].filter((element) => element.checkVisibility() && !element.matches(':disabled')).length;
      });
      await tab(sheet, name).focus();
      let reached = 0;
      let lastTop = { section: -1 };
      for (; reached < wanted; reached++) {
        await sheet.page.keyboard.press('Tab');
        const now = await sheet.page.evaluate(() => {
          const element = document.activeElement;
          const panel = document.querySelector('.nw-panel:not([hidden])');
          if (element === null || panel === null || !panel.contains(element)) return undefined;
          const style = getComputedStyle(element);
          const all = [...panel.querySelectorAll('*')];
          return {
            order: all.indexOf(element),
            outlined: style.outlineStyle !== 'none' && Number.parseFloat(style.outlineWidth) >= 2,
            what: element.textContent?.slice(0, 40) || element.tagName,
          };
        });
        expect(now, `${name}: step ${reached + 1} of ${wanted} leaves the section`).toBeDefined();
        expect(now?.outlined, `${name}: ${now?.what} shows no focus`).toBe(true);
        expect(now?.order, `${name}: ${now?.what} comes out of order`).toBeGreaterThan(lastTop.section);
        lastTop = { section: now?.order ?? -1 };
      }
      expect(reached).toBeGreaterThan(0);
    }
    await sheet.close();
  });

  it('picks a rig and a pressure, and checks a sheet, without the focus getting lost', async () => {
    const sheet = await tests.open();
    await sheet.select('Units!B6');
    const { keyboard } = sheet.page;
    await tab(sheet, 'Cautions').focus();
    await keyboard.press('ArrowRight');
    await keyboard.press('ArrowRight');
    await sheet.page.getByRole('table').waitFor();
    const said = sheet.page.getByRole('status', { name: 'Rig drawn' });
    const before = await said.textContent();
    await keyboard.press('Tab');
    await keyboard.press('ArrowDown');
    await expect.poll(() => said.textContent()).not.toBe(before);
    await keyboard.press('Tab');
    await keyboard.press('Tab');
    await keyboard.type('1 torr');
    await expect.poll(() => said.textContent()).toContain('at 1 torr');
    await tab(sheet, 'Rig').focus();
    await keyboard.press('ArrowRight');
    await keyboard.press('Tab');
    await keyboard.press('Enter');
    await sheet.page.getByText('No cell of this sheet ends in an error.').waitFor();
    const focused = await sheet.page.evaluate(() => document.activeElement?.textContent);
    expect(focused).toBe('Check this sheet');
    await sheet.close();
  });

  it('shows its parts in forced colours: lines and hatching are drawn in the colours of the system', async () => {
    const sheet = await tests.open();
    await sheet.page.emulateMedia({ forcedColors: 'active' });
    await sheet.select('Units!B6');
    await openTab(sheet, 'Rig');
    const colours = await sheet.page.evaluate(() => {
      const drawing = document.querySelector('.nw-rig-drawing');
      const probe = document.createElement('i');
      document.body.append(probe);
      const system = (name: string) => {
        probe.style.cssText = `forced-color-adjust: none; color: ${name}`;
        return getComputedStyle(probe).color;
      };
      const wall = drawing?.querySelector('g[stroke] > path');
      const made = { wall: wall && getComputedStyle(wall).stroke, text: system('CanvasText') };
      probe.remove();
      return made;
    });
    expect(colours.wall).toBe(colours.text);
    await sheet.close();
  });
});
