import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { remember } from '../../src/hosts/excel/messages.ts';
import { noSheet } from '../../src/hosts/excel/no-sheet.ts';
import { excelHost } from '../../src/hosts/excel/pane-host.ts';
import { templateModel } from '../../templates/model.ts';
import { emptyWorkbook, installMock, type MockCell, type MockWorkbook } from './mock-workbook.ts';

let book: MockWorkbook;
let remove: () => void;
const host = excelHost();

beforeEach(() => {
  book = emptyWorkbook();
  remove = installMock(book);
});

afterEach(() => remove());

function put(sheet: string, cells: Readonly<Record<string, MockCell>>): void {
  book.sheets.set(sheet, new Map(Object.entries(cells)));
}

/** One listener hears one event, and is taken out again when it stops. */
async function hearsUntilStopped(
  listen: (listener: () => void) => () => void,
  listeners: () => readonly (() => unknown)[],
): Promise<void> {
  let heard = 0;
  const stop = listen(() => {
    heard += 1;
  });
  await new Promise((resolve) => setTimeout(resolve, 20));
  for (const listener of listeners()) listener();
  expect(heard).toBe(1);
  stop();
  await new Promise((resolve) => setTimeout(resolve, 20));
  expect(listeners()).toEqual([]);
}

describe('the pane in Excel', () => {
  it('puts a formula into the selected cell and tells which cell that is', async () => {
    put('Pipe runs', {});
    book.active = { sheet: 'Pipe runs', cell: 'B4' };
    await host.insertFormula('=NARROWS.TUBE.BORE("3/8 in")');
    expect(book.sheets.get('Pipe runs')?.get('B4')?.formula).toBe('=NARROWS.TUBE.BORE("3/8 in")');
    expect(await host.selectedAddress()).toBe('Pipe runs!B4');
  });

  it('hears when another cell is selected until it stops listening', async () => {
    await hearsUntilStopped(
      (listener) => host.onSelection(listener),
      () => book.selected,
    );
  });

  it('hears when the selected cell is calculated anew', async () => {
    await hearsUntilStopped(
      (listener) => host.onSelection(listener),
      () => book.calculated,
    );
  });

  it('goes to a cell of another sheet, spaces in its name or not', async () => {
    put('Pipe runs', {});
    await host.goTo('Pipe runs!C3');
    expect(book.active).toEqual({ sheet: 'Pipe runs', cell: 'C3' });
    await host.goTo("'Pipe runs'!$D$9");
    expect(book.active).toEqual({ sheet: 'Pipe runs', cell: 'D9' });
  });
});

describe('what the drawing of a rig reads in Excel', () => {
  beforeEach(() => {
    put('Gear', {
      B3: { formula: 'Rig', value: 'Rig' },
      C3: { formula: 'Bore (mm)', value: 'Bore (mm)' },
      B4: { formula: 'small', value: 'small' },
      C4: { formula: '=1/0', value: '#DIV/0!' },
    });
    book.names.set('Parts', '=Gear!$B$3:$C$9');
  });

  it('reads a table by its name or its address, errors as errors', async () => {
    const cells = [
      ['Rig', 'Bore (mm)'],
      ['small', { error: '#DIV/0!' }],
    ];
    expect(await host.cells('Parts')).toEqual({ sheet: 'Gear', row: 2, column: 1, cells });
    expect(await host.cells('Gear!B3:C9')).toEqual({ sheet: 'Gear', row: 2, column: 1, cells });
    expect(await host.cells('Nothing')).toBeUndefined();
    expect(await host.cells('Nowhere!A1:B2')).toBeUndefined();
  });

  it('notes parts that bear a name of the library and other figures, and writes the figures of the library', async () => {
    put('Gear', {
      B3: { formula: 'Rig', value: 'Rig' },
      C3: { formula: 'Part', value: 'Part' },
      D3: { formula: 'Bore (mm)', value: 'Bore (mm)' },
      E3: { formula: 'Length (m)', value: 'Length (m)' },
      B4: { formula: 'small', value: 'small' },
      C4: { formula: 'core removed', value: 'core removed' },
      D4: { formula: 1.3, value: 1.3 },
      E4: { formula: 0.025, value: 0.025 },
    });
    book.names.set('Parts', '=Gear!$B$3:$E$9');
    book.names.set('Other', '=Mine!$A$1:$B$9');
    const notes = (await host.notes?.('workbook')) ?? [];
    // 0.188 in, the through bore of a 1/4 in flare
    expect(notes).toEqual([
      expect.objectContaining({ address: 'Gear!D4', message: expect.stringContaining("not the library's 4.7752 mm") }),
    ]);
    book.active = { sheet: 'Mine', cell: 'A1' };
    expect(await host.notes?.('sheet')).toEqual([]);
    await host.put(notes[0]?.mend?.cells ?? []);
    expect(book.sheets.get('Gear')?.get('D4')?.value).toBe(4.7752);
    expect(await host.notes?.('workbook')).toEqual([]);
  });

  it('reads the row of the selected cell, and hears of changes until it stops listening', async () => {
    book.active = { sheet: 'Gear', cell: 'C4' };
    expect((await host.selectedRow())?.cells).toEqual([['small', { error: '#DIV/0!' }]]);
    await hearsUntilStopped(
      (listener) => host.onChange(listener),
      () => book.changed,
    );
  });
});

describe('checking a workbook in Excel', () => {
  beforeEach(() => {
    put('Mine', {
      A1: { formula: '=NARROWS.TUBE.BORE("9/8 in")', value: '#N/A' },
      A2: { formula: '=NARROWS.TUBE.BORE("3/8 in")', value: 8 },
      A3: { formula: '=1/0', value: '#DIV/0!' },
      A4: { formula: '#N/A', value: '#N/A' },
    });
    put('Other', { B2: { formula: '=NARROWS.GAS("air","x")', value: '#VALUE!' } });
  });

  it('lists the formulas of this sheet that end in an error, ours in the words they had', async () => {
    remember('Mine!A1', { code: '#N/A', message: 'There is no tube size "9/8 in".' });
    const faults = await host.faults('sheet');
    expect(faults.map((fault) => fault.address)).toEqual(['Mine!A1', 'Mine!A3']);
    expect(faults[0]).toMatchObject({ code: '#N/A', message: 'There is no tube size "9/8 in".' });
    expect(faults[1]?.message).toMatch(/zero/);
  });

  it('tells the fault of one cell in the words it had, whatever the name of its sheet', async () => {
    put('Pipe runs', {
      B2: { formula: '=NARROWS.TUBE.BORE("9/8 in")', value: '#N/A' },
      B3: { formula: '=NARROWS.TUBE.BORE("3/8 in")', value: 8 },
      B4: { formula: '#N/A', value: '#N/A' },
    });
    const words = { code: '#N/A', message: 'There is no tube size "9/8 in".' } as const;
    remember("'Pipe runs'!$B$2", words);
    expect(await host.faultAt?.('Pipe runs!B2')).toEqual({
      address: 'Pipe runs!B2',
      formula: '=NARROWS.TUBE.BORE("9/8 in")',
      ...words,
    });
    expect(await host.faultAt?.('Pipe runs!B3')).toBeUndefined();
    expect(await host.faultAt?.('Pipe runs!A1')).toBeUndefined();
    expect(await host.faultAt?.('Pipe runs!B4')).toMatchObject({ formula: '', code: '#N/A' });
  });

  it('does not explain an error by the words of another one', async () => {
    remember('Other!B2', { code: '#N/A', message: 'Words of an earlier calculation.' });
    const faults = await host.faults('workbook');
    expect(faults).toHaveLength(3);
    const other = faults.find((fault) => fault.address === 'Other!B2');
    expect(other?.message).not.toMatch(/earlier/);
    expect(other?.message).toMatch(/\S/);
  });
});

describe('entering again and freezing in Excel', () => {
  it('enters our formulas again that show a name error, in the form that people type', async () => {
    put('Mine', {
      A1: { formula: '=_xldudf_NARROWS_TUBE_BORE("3/8 in")', value: '#NAME?' },
      A2: { formula: '=NARROWS.CONVERT(1,"in","mm")', value: '#NAME?' },
      A3: { formula: '=NARROWS.CONVERT(1,"in","nowhere")', value: '#N/A' },
      A4: { formula: '=SOMETHING(1)', value: '#NAME?' },
    });
    expect(await host.reenter()).toBe(2);
    expect(book.sheets.get('Mine')?.get('A1')?.formula).toBe('=NARROWS.TUBE.BORE("3/8 in")');
    expect(book.sheets.get('Mine')?.get('A2')?.value).toBe('=NARROWS.CONVERT(1,"in","mm")');
    expect(book.sheets.get('Mine')?.get('A4')?.value).toBe('#NAME?');
  });

  it('replaces our formulas by their values, a spilled table as a whole, and leaves all others', async () => {
    put('Mine', {
      A1: { formula: '=NARROWS.ABOUT()', value: 'Item', spill: 'A1:B2' },
      B1: { formula: '=NARROWS.ABOUT()', value: 'Value' },
      A2: { formula: '=NARROWS.ABOUT()', value: 'version' },
      B2: { formula: '=NARROWS.ABOUT()', value: '1' },
      D1: { formula: '=NARROWS.CONVERT(1,"in","mm")*2', value: 50.8 },
      D2: { formula: '=SUM(1,2)', value: 3 },
    });
    expect(await host.freeze()).toBe(2);
    const cells = book.sheets.get('Mine');
    expect(cells?.get('D1')?.formula).toBe(50.8);
    expect(cells?.get('B2')?.formula).toBe('1');
    expect(cells?.get('D2')?.formula).toBe('=SUM(1,2)');
    expect(book.log).toContain('copy RangeCopyType.values Mine!A1:B2');
  });

  it('keeps the frozen formulas on a sheet as text, and puts them back from there', async () => {
    put('Mine', {
      A1: { formula: '=NARROWS.ABOUT()', value: 'Item', spill: 'A1:B2' },
      B1: { formula: '=NARROWS.ABOUT()', value: 'Value' },
      A2: { formula: '=NARROWS.ABOUT()', value: 'version' },
      B2: { formula: '=NARROWS.ABOUT()', value: '1' },
      D1: { formula: '=NARROWS.CONVERT(1,"in","mm")*2', value: 50.8 },
    });
    await host.freeze();
    const kept = book.sheets.get('Formulas kept');
    expect(kept?.get('D2')?.value).toBe("'=NARROWS.ABOUT()");
    expect(kept?.get('C2')?.value).toBe("'A1:B2");
    expect(kept?.get('B3')?.value).toBe("'D1");
    expect(await host.restore()).toEqual({ count: 2, left: [] });
    expect(book.sheets.get('Mine')?.get('A1')?.formula).toBe('=NARROWS.ABOUT()');
    expect(book.sheets.get('Mine')?.has('B2'), 'what it filled is blank for it').toBe(false);
    expect(book.sheets.get('Mine')?.get('D1')?.formula).toBe('=NARROWS.CONVERT(1,"in","mm")*2');
    expect(book.sheets.has('Formulas kept')).toBe(false);
    expect(await host.restore()).toEqual({ count: 0, left: [] });
  });

  it('puts no formula back over cells that hold something else than was frozen there, and says which', async () => {
    put('Mine', {
      A1: { formula: '=NARROWS.ABOUT()', value: 'Item', spill: 'A1:B3' },
      B1: { formula: '=NARROWS.ABOUT()', value: 'Value' },
      A2: { formula: '=NARROWS.ABOUT()', value: "version of 'x'" },
      B2: { formula: '=NARROWS.ABOUT()', value: 0.1 },
      D1: { formula: '=NARROWS.CONVERT(1,"in","mm")*2', value: 50.8 },
      F1: { formula: '=NARROWS.CONVERT(1,"in","mm")', value: '#N/A' },
    });
    expect(await host.freeze()).toBe(3);
    const cells = book.sheets.get('Mine');
    // a note in a blank cell that the formula had filled, and a formula over a value
    cells?.set('B3', { formula: 'my own note', value: 'my own note' });
    cells?.set('D1', { formula: '=2*25.4', value: 50.8 });
    const { count, left } = await host.restore();
    expect(count).toBe(1);
    expect(left.map(({ cell }) => cell)).toEqual(['A1', 'D1']);
    expect(left[0]?.why).toMatch(/^B3 holds something else/);
    expect(cells?.get('B3')?.value).toBe('my own note');
    expect(cells?.get('A2')?.value).toBe("version of 'x'");
    expect(cells?.get('D1')?.formula).toBe('=2*25.4');
    expect(cells?.get('F1')?.formula).toBe('=NARROWS.CONVERT(1,"in","mm")');
    // what was left stays on the list, and comes back when its cells are as they were
    cells?.delete('B3');
    expect(await host.restore()).toMatchObject({ count: 1, left: [{ cell: 'D1' }] });
    expect(cells?.get('A1')?.formula).toBe('=NARROWS.ABOUT()');
  });

  it('puts nothing back over rows that have moved since', async () => {
    put('Mine', {
      A1: { formula: '=NARROWS.ABOUT()', value: 'Item', spill: 'A1:A2' },
      A2: { formula: '=NARROWS.ABOUT()', value: 'version' },
    });
    await host.freeze();
    // a row put in above: Excel moves the values, not the addresses in the list
    put('Mine', { A2: { formula: 'Item', value: 'Item' }, A3: { formula: 'version', value: 'version' } });
    const { count, left } = await host.restore();
    expect(count).toBe(0);
    expect(left[0]?.why).toBe('A1 and 1 more cell hold something else than was frozen there');
    expect(book.sheets.get('Mine')?.get('A2')?.value).toBe('Item');
    expect(book.sheets.has('Formulas kept')).toBe(true);
  });
});

describe('adding the template in Excel', () => {
  it('adds every sheet with its names before its formulas', async () => {
    const model = templateModel();
    const { added, skipped } = await host.addTemplate();
    expect(added).toEqual(model.sheets.map((sheet) => sheet.name));
    expect(skipped).toEqual([]);
    expect([...book.sheets.keys()]).toEqual(['Mine', ...added]);
    expect([...book.names.keys()].sort()).toEqual((model.names ?? []).map((entry) => entry.name).sort());
    for (const reference of book.names.values()) expect(reference).toMatch(/^=.+!\$[A-Z]+\$\d+/);
    const formulas = [...book.sheets.values()].flatMap((cells) => [...cells.values()]).map((cell) => cell.formula);
    expect(formulas.some((formula) => /^=.*NARROWS\./.test(String(formula)))).toBe(true);
    expect(
      formulas.some((formula) => /^'.*\d/.test(String(formula))),
      'text with figures stays text',
    ).toBe(true);
    expect(book.active.sheet).toBe(added[0]);
  });

  it('leaves a sheet and a name alone that are there, and says so', async () => {
    const [first, second] = templateModel().sheets.map((sheet) => sheet.name);
    if (first === undefined || second === undefined) throw new Error('the template has sheets');
    put(second, { A1: { formula: 'my own', value: 'my own' } });
    book.names.set('Units', '=Mine!$A$1');
    const { added, skipped } = await host.addTemplate();
    expect(skipped).toEqual([second]);
    expect(added).not.toContain(second);
    expect([...(book.sheets.get(second) ?? [])]).toHaveLength(1);
    expect(book.names.get('Units')).toBe('=Mine!$A$1');
    const again = await host.addTemplate();
    expect(again.added).toEqual([]);
  });
});

describe('the pane outside Excel', () => {
  it('says that there is no sheet', async () => {
    await expect(noSheet.insertFormula('=1')).rejects.toThrow(/Open the pane in Excel/);
    await expect(noSheet.addTemplate()).rejects.toThrow(/no sheet/);
    expect(await noSheet.selectedAddress()).toBeUndefined();
  });
});
