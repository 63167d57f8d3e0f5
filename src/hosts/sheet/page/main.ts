import { ILayoutService } from '@univerjs/preset-sheets-core';
import { mountPane } from '../../../pane/mount.tsx';
import { csvOf } from '../../../workbook/csv.ts';
import { unpackBook } from '../../../workbook/packed.ts';
import { savedName } from '../../../workbook/saved-name.ts';
import { createFreezer } from '../freeze.ts';
import { createPaneHost } from '../pane-host.ts';
import { usedBlock } from '../sheet-cells.ts';
import { createBar } from './bar.ts';
import { watchChanges } from './changes.ts';
import { showCharts } from './charts.ts';
import { copyFilledCells } from './copy-filled.ts';
import { download } from './download.ts';
import { acceptDrops } from './drop.ts';
import { followEdits } from './edits.ts';
import { fitNarrow } from './fit-narrow.ts';
import { giveFocusBack } from './focus-back.ts';
import { createGrid } from './grid.ts';
import { showMessagesOnHover } from './hover.ts';
import { inspect } from './inspect.ts';
import { keysEverywhere } from './keys.ts';
import { nameNewColumns } from './new-columns.ts';
import { offerLists, watchLists } from './pick.ts';
import { createPrinter } from './print.ts';
import { finishEntry, walkRegions } from './regions.ts';
import { fetchSavingWhenIdle, savingCode } from './saving.ts';
import { keepStepsBack } from './step-back.ts';
import { swipeToScroll } from './touch.ts';
import { ask, emptyBook, fetchBytes, type OpenBook, openBook, readBook, readFile, reason } from './workbook.ts';
import { showWork } from './working.ts';

const TEMPLATE_NAME = 'narrows.xlsx';
/** Tells spreadsheet programs that the text is in UTF-8. */
const BYTE_ORDER_MARK = '\ufeff';

function part(id: string): HTMLElement {
  const element = document.getElementById(id);
  if (element === null) throw new Error(`the page has no ${id}`);
  return element;
}

async function template(): Promise<Uint8Array> {
  const bytes = await fetchBytes('/template.xlsx');
  if (bytes === undefined) throw new Error('the template workbook is not there');
  return bytes;
}

/** The workbook that the server was started with, or the template, or an empty one, with what went wrong. */
async function firstBook(): Promise<{ readonly opened: OpenBook; readonly trouble?: string }> {
  let name = TEMPLATE_NAME;
  try {
    const asked: { readonly name: string } = await (await ask('/book')).json();
    if (asked.name !== '') name = asked.name;
    const packed = await fetchBytes('/book.packed');
    if (packed === undefined) return { opened: emptyBook(name) };
    const { file, book } = unpackBook(packed);
    return { opened: book === undefined ? await readBook(name, file) : openBook(name, book) };
  } catch (error) {
    return { opened: emptyBook(TEMPLATE_NAME), trouble: `${name} cannot be opened: ${reason(error)}` };
  }
}

/** What is said of files that came with the one that is open. */
function leftOutWords(names: readonly string[]): string {
  return names.length === 0 ? '' : ` (one workbook is open at a time; left out: ${names.join(', ')})`;
}

/** A canvas does not wait for fonts: those that stand in are there before the first cell is drawn. */
async function fontsReady(): Promise<void> {
  const looks = ['', 'bold', 'italic', 'bold italic'];
  await Promise.allSettled(looks.map((look) => document.fonts.load(`${look} 12px Calibri`)));
}

async function start(): Promise<void> {
  await fontsReady();
  const sheet = part('nw-sheet');
  const begun = await firstBook();
  let current = begun.opened;
  const grid = createGrid(sheet, current);
  const changes = watchChanges(grid);
  const edits = followEdits(grid);
  const freezer = createFreezer(grid, edits);
  nameNewColumns(grid, edits, () => current.book);

  function show(next: OpenBook): void {
    current = next;
    grid.show(next);
    changes.forget();
    edits.forget();
    accepted = '';
    document.title = `${next.name} – Narrows`;
  }

  /** Runs one thing on the workbook at a time; what comes of it is said in the bar, and what else there is to say. */
  async function attempt(what: string, work: () => Promise<string>, besides = ''): Promise<void> {
    bar.busy(true);
    bar.say(`${what} …`);
    // What is being typed counts. Lets the line be drawn before the work begins, too.
    await finishEntry(grid);
    await new Promise((done) => setTimeout(done));
    try {
      bar.say(`${await work()}${besides}`);
    } catch (error) {
      bar.say(`${what} failed: ${reason(error)}${besides}`);
    } finally {
      bar.busy(false);
    }
  }

  /** True if the open workbook may go: it has no changes, or the person says so. */
  async function mayReplace(): Promise<boolean> {
    if (!changes.pending()) return true;
    return bar.ask('There are changes that were not saved.', 'Discard them', 'Keep working');
  }

  async function open(file: File, others: readonly string[] = []): Promise<void> {
    if (!(await mayReplace())) return;
    const work = async () => {
      show(await readFile(file));
      return `Opened ${file.name}`;
    };
    await attempt(`Opening ${file.name}`, work, leftOutWords(others));
  }

  /** What the person was told of already, and saved all the same. */
  let accepted = '';

  async function save(): Promise<void> {
    await finishEntry(grid);
    freezer.settle();
    const { saveBook, lossesOfLetters, lossesOfSave, lossesOfUnknown } = await savingCode();
    const there = [...grid.origins].filter(([id]) => grid.api.getActiveWorkbook()?.getSheetBySheetId(id));
    const losses = [
      ...lossesOfSave(current.book, changes.beyondCells(), edits.done, edits.rearranged, there),
      ...lossesOfLetters(grid.snapshot()),
      ...(current.book === undefined ? [] : lossesOfUnknown(current.book, grid.snapshot())),
    ].join(' ');
    if (losses !== '' && losses !== accepted) {
      if (!(await bar.ask(`What the file will not keep: ${losses}`, 'Save all the same', 'Do not save'))) return;
      accepted = losses;
    }
    await attempt('Saving', async () => {
      const name = savedName(current.name);
      download(await saveBook(grid, current, changes.beyondCells(), edits.done), name);
      changes.saved();
      return `Saved ${name}${losses === '' ? '' : `. ${losses}`}`;
    });
  }

  /** Hands the sheet in view out as comma-separated text. */
  function exportSheet(): string {
    const sheet = grid.api.getActiveWorkbook()?.getActiveSheet();
    const used = sheet && usedBlock(grid, sheet.getSheetId());
    if (!sheet || used === undefined) return 'The sheet is empty: nothing to write';
    const rows = grid.reader.cellsIn(sheet.getWorkbook().getUnitId(), sheet.getSheetId(), used);
    const name = `${savedName(current.name).slice(0, -'.xlsx'.length)} - ${sheet.getSheetName()}.csv`;
    // the block begins at A1
    const formatAt = (row: number, column: number) =>
      sheet.getSheet().getComposedCellStyle(row, column)?.n?.pattern ?? undefined;
    download(BYTE_ORDER_MARK + csvOf(rows, formatAt), name, 'text/csv;charset=utf-8');
    return `Wrote ${name}: values only`;
  }

  const print = createPrinter(grid);
  const bar = createBar(part('nw-bar'), {
    open: (file) => void open(file),
    save: () => void save().catch((error: unknown) => bar.say(`Saving failed: ${reason(error)}`)),
    fresh: (from, name) =>
      void mayReplace().then((may) => {
        if (!may) return;
        return attempt('Opening the template', async () => {
          const bytes = await fetchBytes(from);
          if (bytes === undefined) throw new Error('the template workbook is not there');
          show(await readBook(TEMPLATE_NAME, bytes));
          return from === '/template.xlsx' ? 'Opened a fresh copy of the template' : `Opened a fresh copy: ${name}`;
        });
      }),
    csv: () => void attempt('Writing the sheet', async () => exportSheet()),
    print: () => void attempt('Printing', async () => print()),
    toGrid: () => grid.injector.get(ILayoutService).focus(),
  });
  offerLists(grid, part('nw-grid'));
  watchLists(grid, bar);
  copyFilledCells(grid, bar);
  showCharts(grid, part('nw-charts'));
  showWork(grid.pace, part('nw-bar'));
  fitNarrow(grid, sheet);
  acceptDrops(document.body, (file, others) => void open(file, others));
  showMessagesOnHover(grid, sheet);
  swipeToScroll(grid, sheet);
  walkRegions(grid, bar.showPane);
  keysEverywhere(grid, bar.save);
  keepStepsBack(grid);
  giveFocusBack(grid);
  const host = createPaneHost(grid, edits, freezer, template);
  mountPane(part('nw-pane'), host);
  Object.assign(window, { narrows: inspect(grid, host) });
  document.title = `${current.name} – Narrows`;
  bar.say(begun.trouble ?? current.name);
  document.documentElement.dataset.ready = 'true';
  // after the first picture of the sheet
  requestAnimationFrame(fetchSavingWhenIdle);
}

start().catch((error: unknown) => {
  part('nw-bar').textContent = `Narrows could not start: ${reason(error)}`;
});
