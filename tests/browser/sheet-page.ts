import type { Browser, ConsoleMessage, Page } from 'playwright-core';
import type { Inspect } from '../../src/hosts/sheet/page/inspect.ts';
import { type SheetServer, startServer } from '../../src/hosts/sheet/server.ts';
import { freshBundle } from './bundle.ts';
import { startBrowser } from './chromium.ts';

type WithNarrows = Window & { readonly narrows: Inspect; took: Promise<number> };

/** The built page in a real browser, as a person meets it: with a mouse and a keyboard. */
export interface SheetPage {
  readonly page: Page;
  /** errors and warnings of the page, and requests beyond loopback, so far */
  readonly trouble: readonly string[];
  /** Goes to a cell, types, and presses Enter; waits for the calculation. */
  type(address: string, text: string): Promise<void>;
  /** Goes to a cell and types without finishing. */
  begin(address: string, text: string): Promise<void>;
  /** Presses Enter; gives the milliseconds until the results are in the cells. */
  finish(): Promise<number>;
  value(address: string): Promise<string | number | boolean | null>;
  values(addresses: readonly string[]): Promise<(string | number | boolean | null)[]>;
  select(address: string): Promise<void>;
  /** Chooses from the menu that a right click on a cell opens, such as Insert, Move Down. */
  menu(address: string, group: string, item: string | RegExp): Promise<void>;
  /** Chooses from the menu that a right click on the tab of a sheet opens. */
  tab(name: string, item: string): Promise<void>;
  /** where a cell of the sheet in view is drawn while that is not scrolled, in pixels of the page */
  place(cell: string): Promise<ReturnType<Inspect['place']>>;
  close(): Promise<void>;
}

export interface PageOptions {
  readonly width?: number;
  readonly height?: number;
  readonly dark?: boolean;
  /** a phone: it has fingers, and a mouse all the same */
  readonly touch?: boolean;
}

export interface SheetTests {
  readonly server: SheetServer;
  open(options?: PageOptions): Promise<SheetPage>;
  close(): Promise<void>;
}

/** Builds the page if it has to, and starts a server and a browser. Close when done. */
export async function startSheetTests(book?: string): Promise<SheetTests> {
  await freshBundle();
  const server = await startServer({ port: 0, ...(book === undefined ? {} : { book }) });
  const browser = await startBrowser();
  return {
    server,
    open: (options = {}) => openPage(browser, server, options),
    async close() {
      await browser.close();
      await server.close();
    },
  };
}

async function openPage(
  browser: Browser,
  server: SheetServer,
  { width = 1280, height = 800, dark = false, touch = false }: PageOptions,
): Promise<SheetPage> {
  const context = await browser.newContext({
    viewport: { width, height },
    colorScheme: dark ? 'dark' : 'light',
    acceptDownloads: true,
    hasTouch: touch,
    isMobile: touch,
  });
  const page = await context.newPage();
  const trouble: string[] = [];
  page.on('console', (message: ConsoleMessage) => {
    if (message.type() === 'error' || message.type() === 'warning') trouble.push(message.text());
  });
  page.on('pageerror', (error) => trouble.push(String(error)));
  page.on('request', (request) => {
    const { protocol, host } = new URL(request.url());
    const ours = host === `localhost:${server.port}`;
    if (!ours && protocol !== 'data:' && protocol !== 'blob:') trouble.push(`request to ${request.url()}`);
  });
  await page.goto(server.address);
  await page.waitForSelector('html[data-ready]');
  await settled(page);

  const value = (address: string) =>
    page.evaluate((at) => (window as unknown as WithNarrows).narrows.value(at), address);
  const select = async (address: string) => {
    await page.evaluate((at) => (window as unknown as WithNarrows).narrows.select(at), address);
    await page.waitForTimeout(100);
  };
  const place = (cell: string) => page.evaluate((at) => (window as unknown as WithNarrows).narrows.place(at), cell);
  const begin = async (address: string, text: string) => {
    await select(address);
    await page.keyboard.type(text);
  };
  const finish = async () => {
    await page.evaluate(() => {
      const here = window as unknown as WithNarrows;
      // A short calculation may be over before this hears of the key: the key's own time counts.
      const enter = new Promise<number>((resolve) =>
        addEventListener('keydown', ({ timeStamp }) => resolve(timeStamp), { capture: true, once: true }),
      );
      const calculated = here.narrows.calculated();
      here.took = enter.then(async (began) => {
        // Plain values that no formula reads start no calculation.
        const late = new Promise<number>((resolve) => setTimeout(() => resolve(performance.now()), 2_000));
        return (await Promise.race([calculated, late])) - began;
      });
    });
    await page.keyboard.press('Enter');
    return page.evaluate(() => (window as unknown as WithNarrows).took);
  };
  /**
   * The middle of a text, or of the icon of a button with such a name (a field may stand in its middle), that stands still on
   * the screen: menus that were open before stay in the page, far outside of it.
   */
  const middleOf = async (text: string | RegExp): Promise<{ readonly x: number; readonly y: number }> => {
    let before = { x: 0, y: 0 };
    for (let tries = 0; tries < 50; tries++) {
      const found =
        typeof text === 'string' ? page.getByText(text, { exact: true }) : page.getByRole('button', { name: text });
      const boxes = await Promise.all((await found.all()).map((one) => one.boundingBox()));
      const box = boxes.find((one) => one !== null && one.x > 0 && one.y > 0);
      const across = typeof text === 'string' ? (box?.width ?? 0) / 2 : 16;
      const now = box ? { x: box.x + across, y: box.y + box.height / 2 } : { x: 0, y: 0 };
      if (box && now.x === before.x && now.y === before.y) return now;
      before = now;
      await page.waitForTimeout(150);
    }
    throw new Error(`${text} is not on the screen`);
  };
  const menu = async (address: string, group: string, item: string | RegExp) => {
    await select(address);
    const { x, y } = await place(address.replace(/^.*!/, ''));
    await page.mouse.click(x + 20, y + 8, { button: 'right' });
    const from = await middleOf(group);
    await page.mouse.move(from.x, from.y);
    const to = await middleOf(item);
    // straight across, since the groups on the way open as well
    await page.mouse.move(to.x, from.y, { steps: 5 });
    await page.mouse.click(to.x, to.y);
    await page.evaluate(() => (window as unknown as WithNarrows).narrows.idle());
  };
  const tab = async (name: string, item: string) => {
    const boxes = await Promise.all(
      (await page.getByText(name, { exact: true }).all()).map((one) => one.boundingBox()),
    );
    const lowest = boxes.reduce((low, box) => (box !== null && box.y > (low?.y ?? 0) ? box : low), null);
    if (lowest === null) throw new Error(`${name} has no tab`);
    await page.mouse.click(lowest.x + lowest.width / 2, lowest.y + lowest.height / 2, { button: 'right' });
    const to = await middleOf(item);
    await page.mouse.click(to.x, to.y);
  };
  return {
    page,
    trouble,
    menu,
    tab,
    begin,
    select,
    value,
    values: (addresses) => Promise.all(addresses.map(value)),
    finish,
    place,
    async type(address, text) {
      await begin(address, text);
      await finish();
      // A busy machine may end the calculation of the entry before while this one is awaited.
      await page.evaluate(() => (window as unknown as WithNarrows).narrows.idle());
    },
    close: () => context.close(),
  };
}

/** Puts a stand-in for the printer's own window, which would wait for somebody: the page is left as it is when that is open. */
export async function standInForPrinter(page: Page): Promise<void> {
  await page.evaluate(() => {
    window.print = () => {
      dispatchEvent(new Event('beforeprint'));
      document.documentElement.setAttribute('data-printed', 'yes');
    };
  });
}

/** Waits until the first calculation is over and the grid is drawn and takes keys. */
async function settled(page: Page): Promise<void> {
  await page.waitForSelector('canvas');
  await page.waitForTimeout(1500);
}
