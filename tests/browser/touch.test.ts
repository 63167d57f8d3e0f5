import type { CDPSession } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { type SheetPage, type SheetTests, startSheetTests } from './sheet-page.ts';

interface Spot {
  readonly x: number;
  readonly y: number;
}
interface Way {
  readonly x: number;
  readonly y: number;
  /** how long the finger rests before it moves and before it lifts, ms */
  readonly before?: number;
  readonly after?: number;
}

const STEPS = 10;
const FRAME_MS = 16;
/** Longer than any press that is none yet. */
const LONG_MS = 700;

describe('the sheet under a finger', () => {
  let tests: SheetTests;
  let sheet: SheetPage;
  let session: CDPSession;
  beforeAll(async () => {
    tests = await startSheetTests();
    sheet = await tests.open({ width: 360, height: 740, touch: true });
    session = await sheet.page.context().newCDPSession(sheet.page);
  });
  afterAll(() => tests?.close());
  // the first of the rows and columns that scroll: the sheet is not scrolled
  beforeEach(() => sheet.select('Units!B5'));

  /** What is selected, as the name box has it. */
  const selected = () => sheet.page.locator('[data-u-comp="defined-name"] input').inputValue();
  const sheetInView = async () =>
    (await sheet.page.locator('[aria-label="Selected cell"]').textContent())?.split('!')[0];
  /** In the middle of the row, near the left of the column: the right of it may be beyond the screen. */
  const spotOf = async (cell: string): Promise<Spot> => {
    const { x, y, height } = await sheet.place(cell);
    return { x: x + 20, y: y + height / 2 };
  };
  /** Moments of the fingers, in seconds: a busy machine does not make them slower. */
  let now = Date.now() / 1000;
  const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', ...fingers: readonly Spot[]) => {
    now += FRAME_MS / 1000;
    const touchPoints = fingers.map(({ x, y }, id) => ({ x, y, id }));
    return session.send('Input.dispatchTouchEvent', { type, touchPoints, timestamp: now });
  };
  /** Another finger comes after a pause in which no double tap can be meant. */
  const pause = async (ms = 600) => {
    await sheet.page.waitForTimeout(ms);
    now = Math.max(now, Date.now() / 1000);
  };
  const touchAndLift = async (spot: Spot) => {
    await touch('touchStart', spot);
    await touch('touchEnd');
  };
  const tap = async (spot: Spot) => {
    await touchAndLift(spot);
    await pause();
  };
  /** Moves a finger, which rests before it lifts: nothing moves on. */
  const swipe = async (from: Spot, { x, y, before = 0, after = LONG_MS }: Way) => {
    await touch('touchStart', from);
    if (before > 0) await pause(before);
    for (let step = 1; step <= STEPS; step++)
      await touch('touchMove', { x: from.x + (x * step) / STEPS, y: from.y + (y * step) / STEPS });
    now += after / 1000;
    await touch('touchEnd');
    await pause();
  };

  it('selects the cell of a tap', async () => {
    await tap(await spotOf('B9'));
    expect(await selected()).toBe('B9');
  });

  it.each([
    ['upwards', { x: 0, y: -120 }],
    ['to the left', { x: -90, y: 0 }],
    ['both ways', { x: -80, y: -90 }],
  ])('goes with a swipe %s and keeps what is selected', async (_, way) => {
    const from = await spotOf('C20');
    await tap(await spotOf('B7'));
    await swipe(from, way);
    expect(await selected()).toBe('B7');
    await tap({ x: from.x + way.x, y: from.y + way.y });
    expect(await selected()).toBe('C20');
  });

  it('keeps to the axis along which a swipe begins', async () => {
    const from = await spotOf('B20');
    await swipe(from, { x: -15, y: -120 });
    // aslant, the next column would be here
    await tap({ x: (await sheet.place('C20')).x - 5, y: from.y - 120 });
    expect(await selected()).toBe('B20');
  });

  it('scrolls under frozen rows by a swipe over them', async () => {
    const header = await spotOf('B4');
    const row = await spotOf('B20');
    await swipe(header, { x: 0, y: -100 });
    await tap({ x: row.x, y: row.y - 100 });
    expect(await selected()).toBe('B20');
    await tap(header);
    expect(await selected()).toBe('B4');
  });

  it('moves on after a flick until it is touched, which selects nothing', async () => {
    const from = await spotOf('B20');
    await tap(await spotOf('B7'));
    await swipe(from, { x: 0, y: -100, after: 0 });
    await sheet.page.waitForTimeout(1_500);
    await tap({ x: from.x, y: from.y - 100 });
    const row = Number((await selected()).slice(1));
    expect(row).toBeGreaterThan(25);
    await touch('touchStart', from);
    for (let step = 1; step <= STEPS; step++) await touch('touchMove', { x: from.x, y: from.y - 10 * step });
    await touch('touchEnd');
    await touchAndLift(from);
    await pause();
    expect(await selected()).toBe(`B${row}`);
  });

  it('edits the cell of a double tap', async () => {
    const spot = await spotOf('B9');
    await tap(spot);
    const before = await sheet.value('Units!B9');
    await touchAndLift(spot);
    await touchAndLift(spot);
    await pause();
    await sheet.page.keyboard.type(' mine');
    await sheet.page.keyboard.press('Enter');
    await expect.poll(() => sheet.value('Units!B9')).toBe(`${before} mine`);
    await sheet.page.keyboard.press('Control+z');
  });

  it('selects the cells over which a finger goes after a long press', async () => {
    const from = await spotOf('B8');
    const to = await spotOf('C11');
    await swipe(from, { x: to.x - from.x, y: to.y - from.y, before: LONG_MS });
    expect(await selected()).toBe('B8:C11');
  });

  it('changes no cell by a swipe from the corner or the edge of what is selected', async () => {
    const cells = Array.from({ length: 12 }, (_, row) => `Units!B${row + 5}`);
    const before = await sheet.values(cells);
    await tap(await spotOf('B6'));
    const { x, y, width, height } = await sheet.place('B6');
    await swipe({ x: x + width, y: y + height }, { x: 0, y: 90 });
    await swipe({ x, y: y + height / 2 }, { x: 0, y: 90 });
    expect(await sheet.values(cells)).toEqual(before);
  });

  it('takes no notice of two fingers', async () => {
    const from = await spotOf('B12');
    const row = await spotOf('B20');
    await tap(await spotOf('B7'));
    await touch('touchStart', from);
    await touch('touchStart', from, row);
    for (let step = 1; step <= STEPS; step++)
      await touch('touchMove', { x: from.x, y: from.y - 5 * step }, { x: row.x, y: row.y + 5 * step });
    await touch('touchEnd');
    await pause();
    expect(await selected()).toBe('B7');
    await tap(row);
    expect(await selected()).toBe('B20');
  });

  it('shows what is wrong in the cell of a tap until the next tap or swipe', async () => {
    const tip = sheet.page.getByRole('tooltip');
    await sheet.type('Units!C9', '=1/0');
    const wrong = await spotOf('C9');
    const sound = await spotOf('C11');
    expect(await tip.isVisible()).toBe(false);
    await tap(wrong);
    expect(await selected()).toBe('C9');
    expect(await tip.textContent()).toContain('#DIV/0!');
    const box = await tip.boundingBox();
    if (box === null) throw new Error('no message is in view');
    expect(box.x).toBeGreaterThanOrEqual(0);
    expect(box.x + box.width).toBeLessThanOrEqual(360);
    expect(box.y - wrong.y).toBeLessThan(40);
    await tap(sound);
    expect(await tip.isVisible()).toBe(false);
    await tap(wrong);
    expect(await tip.isVisible()).toBe(true);
    await swipe(sound, { x: 0, y: -60 });
    expect(await tip.isVisible()).toBe(false);
    await sheet.page.keyboard.press('Control+z');
  });

  it('is dragged by a mouse as before', async () => {
    const from = await spotOf('B8');
    const to = await spotOf('C11');
    await sheet.page.mouse.move(from.x, from.y);
    await sheet.page.mouse.down();
    await sheet.page.mouse.move(to.x, to.y, { steps: 5 });
    await sheet.page.mouse.up();
    await expect.poll(selected).toBe('B8:C11');
  });

  it('shows other tabs by a swipe over them, and opens that of a tap', async () => {
    await sheet.select('Start!A1');
    await pause();
    const tabs = sheet.page.getByRole('tablist', { name: 'Sheet tabs' });
    const boxes = () =>
      Promise.all([tabs, tabs.getByText('Conditions', { exact: true })].map((at) => at.boundingBox()));
    const [bar, before] = await boxes();
    if (!bar || !before) throw new Error('there are no tabs');
    const y = bar.y + bar.height / 2;
    await swipe({ x: bar.x + bar.width - 5, y }, { x: bar.x - before.x, y: 0 });
    expect(await sheetInView()).toBe('Start');
    const [, after] = await boxes();
    expect(after?.x).toBeLessThan(before.x - 20);
    await tap({ x: Math.max(bar.x, after?.x ?? 0) + 5, y });
    expect(await sheetInView()).toBe('Conditions');
  });

  it('moves alone: the page stays', async () => {
    await swipe(await spotOf('B9'), { x: 0, y: 200 });
    await swipe(await spotOf('B20'), { x: 0, y: -200 });
    const page = () => [scrollX, scrollY, visualViewport?.offsetTop, visualViewport?.pageTop, visualViewport?.scale];
    expect(await sheet.page.evaluate(page)).toEqual([0, 0, 0, 0, 1]);
  });

  it('leaves the pane its own swipes', async () => {
    await sheet.page.getByRole('button', { name: 'Pane' }).tap();
    await pause();
    await swipe({ x: 180, y: 600 }, { x: 0, y: -300 });
    const furthest = () =>
      Math.max(...[...document.querySelectorAll('#nw-pane *')].map((element) => element.scrollTop));
    await expect.poll(() => sheet.page.evaluate(furthest)).toBeGreaterThan(100);
  });

  it('has had no fault in all of this', () => {
    expect(sheet.trouble).toEqual([]);
  });
});
