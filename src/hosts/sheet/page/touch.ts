import { ICommandService } from '@univerjs/core';
import { IRenderManagerService, SetScrollRelativeCommand, Vector2 } from '@univerjs/preset-sheets-core';
import { createCoast } from './coast.ts';
import type { Grid } from './grid.ts';

/** A finger that strays no further than this, px, taps or presses. */
const SLOP = 8;
/** A finger that rests this long before it moves does what a mouse would do. Browsers open their menus a little later. */
const LONG_PRESS_MS = 400;
/** A swipe that begins this many times further along one axis than along the other keeps to the one. */
const STRAIGHT = 2;
const CELLS = 'canvas[id^="univer-sheet-main"]';
const TABS = '[data-u-comp="slide-tab-bar"]';
/** What the library calls its scroll bars and their tracks among the things that it draws. */
const SCROLL_BAR = /^__(horizon|vertical)(Bar|Thumb)Rect__/;

/** What a swipe moves. */
interface Surface {
  /** Moves by so many pixels what is shown, as a scroll bar would: down and to the right where positive. */
  scroll(x: number, y: number): void;
  /** whether it moves on for a moment when a swift finger lets go */
  readonly coasts: boolean;
  /** Told when the finger has let go. */
  settle(): void;
}

/** The one finger that counts: the first on the screen. */
interface Finger {
  readonly down: PointerEvent;
  readonly target: Element;
  readonly surface: Surface;
  /** whether it came down on what still moved: then it stops that, and its tap is none */
  readonly stops: boolean;
  /** undecided; moves the surface; is a mouse to the library; does nothing any more */
  stage: 'resting' | 'swiping' | 'handed' | 'void';
  axis: 'x' | 'y' | undefined;
  x: number;
  y: number;
}

/**
 * Lets fingers scroll the cells and the tabs of the sheets, which the library's page for desks does not: there each touch
 * is a mouse that drags. The library hears of a finger when that has lifted without moving (a tap) or has rested (a long
 * press, from which it may drag), and of no swipe, so that none selects, moves or fills a cell. Mice and pens are as before.
 */
export function swipeToScroll(grid: Grid, area: HTMLElement): void {
  const coast = createCoast();
  const cells = cellsOf(grid);
  let finger: Finger | undefined;
  let press: ReturnType<typeof setTimeout> | undefined;
  /** a lifted finger that was no tap may make a click all the same */
  let spent = false;

  const surfaceOf = (target: Element, event: PointerEvent): Surface | undefined => {
    if (target.matches(CELLS)) return onScrollBar(grid, event) ? undefined : cells;
    const tabs = target.closest(TABS);
    return tabs === null ? undefined : tabsOf(tabs);
  };
  const release = (stage: 'handed' | 'void') => {
    clearTimeout(press);
    if (finger === undefined) return;
    if (finger.stage === 'swiping') finger.surface.settle();
    finger.stage = stage;
  };
  const hand = () => {
    if (finger?.stage !== 'resting') return;
    release('handed');
    finger.target.dispatchEvent(new PointerEvent('pointerdown', finger.down));
  };

  const down = (event: PointerEvent) => {
    const wasMoving = coast.stop();
    if (!isFinger(event)) return;
    const { target } = event;
    const surface = target instanceof Element ? surfaceOf(target, event) : undefined;
    if (event.isPrimary) {
      release('void');
      finger = undefined;
      spent = false;
    }
    if (surface === undefined || !(target instanceof Element)) return;
    event.stopPropagation();
    if (event.isPrimary) {
      const { clientX: x, clientY: y } = event;
      finger = { down: event, target, surface, stops: wasMoving, stage: 'resting', axis: undefined, x, y };
      press = setTimeout(hand, LONG_PRESS_MS);
    } else if (finger !== undefined && finger.stage !== 'handed') release('void');
  };

  const move = (event: PointerEvent) => {
    if (!isFinger(event)) return;
    if (!event.isPrimary) return event.stopPropagation();
    if (finger === undefined || finger.stage === 'handed') return;
    event.stopPropagation();
    const x = finger.x - event.clientX;
    const y = finger.y - event.clientY;
    if (finger.stage === 'resting' && Math.hypot(x, y) > SLOP) {
      clearTimeout(press);
      finger.stage = 'swiping';
      finger.axis = straight(x, y);
    }
    if (finger.stage !== 'swiping') return;
    const moved = { x: finger.axis === 'y' ? 0 : x, y: finger.axis === 'x' ? 0 : y };
    finger.x = event.clientX;
    finger.y = event.clientY;
    finger.surface.scroll(moved.x, moved.y);
    coast.note(event.timeStamp, moved.x, moved.y);
  };

  const up = (event: PointerEvent) => {
    if (!isFinger(event)) return;
    if (!event.isPrimary) return event.stopPropagation();
    if (finger === undefined) return;
    if (finger.stage === 'resting' && !finger.stops && event.type === 'pointerup') hand();
    if (finger.stage !== 'handed') {
      event.stopPropagation();
      spent = true;
    }
    const { stage, surface } = finger;
    release('void');
    finger = undefined;
    if (stage === 'swiping' && surface.coasts && event.type === 'pointerup')
      coast.start(event.timeStamp, surface.scroll);
  };

  addEventListener('pointerdown', down, true);
  area.addEventListener('pointermove', move, true);
  area.addEventListener('pointerup', up, true);
  area.addEventListener('pointercancel', up, true);
  area.addEventListener(
    'click',
    (event) => {
      if (spent) event.stopPropagation();
      spent = false;
    },
    true,
  );
  // A menu of the browser would end the press.
  area.addEventListener('contextmenu', (event) => {
    if (finger?.surface === cells) event.preventDefault();
  });
  for (const kind of ['wheel', 'keydown']) addEventListener(kind, coast.stop, { capture: true, passive: true });
}

/** What the page makes up itself, as a press that is handed on, is no finger. */
const isFinger = (event: PointerEvent): boolean => event.pointerType === 'touch' && event.isTrusted;

function straight(x: number, y: number): 'x' | 'y' | undefined {
  if (Math.abs(x) > STRAIGHT * Math.abs(y)) return 'x';
  return Math.abs(y) > STRAIGHT * Math.abs(x) ? 'y' : undefined;
}

function sceneOf(grid: Grid) {
  const book = grid.api.getActiveWorkbook()?.getId();
  return book === undefined ? undefined : grid.injector.get(IRenderManagerService).getRenderById(book)?.scene;
}

function onScrollBar(grid: Grid, { offsetX, offsetY }: PointerEvent): boolean {
  const drawn = sceneOf(grid)?.pick(Vector2.FromArray([offsetX, offsetY]));
  return drawn !== undefined && drawn !== null && 'oKey' in drawn && SCROLL_BAR.test(drawn.oKey);
}

/** The cells scroll by the wheel's own command, which keeps frozen rows and columns in step. */
function cellsOf(grid: Grid): Surface {
  const commands = grid.injector.get(ICommandService);
  return {
    coasts: true,
    scroll(x, y) {
      const scene = sceneOf(grid);
      if (scene === undefined) return;
      void commands.executeCommand(SetScrollRelativeCommand.id, {
        offsetX: x / scene.scaleX,
        offsetY: y / scene.scaleY,
      });
      scene.makeDirty(true);
    },
    settle() {},
  };
}

/** The library keeps to itself how far it has scrolled the tabs, and goes from tab to tab: it is told when all is over. */
function tabsOf(tabs: Element): Surface {
  const before = tabs.scrollLeft;
  return {
    coasts: false,
    scroll(x) {
      tabs.scrollLeft += x;
    },
    settle() {
      const deltaY = tabs.scrollLeft - before;
      if (deltaY !== 0) tabs.dispatchEvent(new WheelEvent('wheel', { deltaY }));
    },
  };
}
