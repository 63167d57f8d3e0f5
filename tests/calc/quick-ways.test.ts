import fc from 'fast-check';
import { afterAll, describe, expect, it } from 'vitest';
import { findHiddenRowsQuickly } from '../../src/calc/hidden-rows.ts';
import { keepResultsInPlace } from '../../src/calc/kept-results.ts';
import { installLookupIndex } from '../../src/calc/lookup-index.ts';
import { readCellsQuickly } from '../../src/calc/read-cells.ts';
import { loadUniver } from '../../src/calc/univer-node.ts';
import { cellsOf as cellsOfEngine, engineValue } from '../../src/calc/values.ts';

/** The engine's own ways, before anything is put in their place, beside ours: what they do must be the same. */
const modules = loadUniver();
const { core, engine } = modules;
const univers: { dispose(): void }[] = [];

function started() {
  const univer = new core.Univer({ locale: core.LocaleType.EN_US, logLevel: core.LogLevel.SILENT });
  univers.push(univer);
  univer.registerPlugin(engine.UniverFormulaEnginePlugin, {});
  univer.createUnit(core.UniverInstanceType.UNIVER_SHEET, {});
  return univer.__getInjector();
}

type Rows<T> = Record<number, Record<number, T>>;
interface Range {
  startRow: number;
  endRow: number;
  startColumn: number;
  endColumn: number;
}
interface Held {
  _arrayFormulaRange: Record<string, Record<string, Rows<Range>>>;
  _arrayFormulaCellData: Record<string, Record<string, Rows<object>>>;
  clearPreviousArrayFormulaCellData(given: object): void;
  mergeArrayFormulaCellData(given: object): void;
}

const place = fc.nat({ max: 6 });
const range = fc.record({ row: place, column: place, down: fc.nat({ max: 3 }), across: fc.nat({ max: 2 }) });
function put<T>(rows: Rows<T>, row: number, column: number, value: T): void {
  const line = rows[row] ?? {};
  rows[row] = line;
  line[column] = value;
}
const rangesOf = (all: { row: number; column: number; down: number; across: number }[]): Rows<Range> => {
  const rows: Rows<Range> = {};
  for (const { row, column, down, across } of all)
    put(rows, row, column, { startRow: row, endRow: row + down, startColumn: column, endColumn: column + across });
  return rows;
};
const cell = fc.record({ row: place, column: place, v: fc.option(fc.integer({ min: 1, max: 99 }), { nil: null }) });
const cellsOf = (all: { row: number; column: number; v: number | null }[]): Rows<{ v: number } | null> => {
  const rows: Rows<{ v: number } | null> = {};
  for (const { row, column, v } of all) put(rows, row, column, v === null ? null : { v });
  return rows;
};
const some = <T>(one: fc.Arbitrary<T>) => fc.array(one, { maxLength: 8 });
afterAll(() => {
  for (const univer of univers) univer.dispose();
});

describe('the quick ways of the calculation', () => {
  it('file just the cells of a column that the engine would file', () => {
    const work = installLookupIndex(modules);
    const index = engine.CELL_INVERTED_INDEX_CACHE;
    const rows = fc.record({ start: fc.integer({ min: -1, max: 12 }), size: fc.nat({ max: 4 }) });
    const read = fc.record({ column: fc.integer({ min: -1, max: 1 }), rows });
    fc.assert(
      fc.property(
        some(read),
        fc.integer({ min: -1, max: 1 }),
        fc.integer({ min: -1, max: 18 }),
        (reads, column, row) => {
          index.clear();
          for (const { column: at, rows } of reads)
            index.setContinueBuildingCache('u', 's', at, rows.start, rows.start + rows.size);
          const before = work.set;
          index.set('u', 's', column, 7, row);
          expect(work.set - before).toBe(index.shouldContinueBuildingCache('u', 's', column, row) ? 1 : 0);
        },
      ),
      { numRuns: 500 },
    );
    index.clear();
  });

  it('turn a range that many formulas read into cells once', () => {
    const table = engineValue(modules, [
      ['Rig', 1],
      ['A', null],
    ]);
    const cells = cellsOfEngine(table);
    expect(cells).toEqual([
      ['Rig', 1],
      ['A', ''],
    ]);
    expect(cellsOfEngine(table)).toBe(cells);
  });

  it('take results over as the engine does: what is cleared, what is put in its place, what stays', () => {
    const stock = started().get(engine.FormulaDataModel) as unknown as Held;
    const injector = started();
    keepResultsInPlace(modules, injector);
    const ours = injector.get(engine.FormulaDataModel) as unknown as Held;
    const sheets = (rows: Rows<object | null>) => ({
      u: { s: new core.ObjectMatrix(structuredClone(rows) as never) },
    });
    fc.assert(
      fc.property(some(range), some(cell), some(cell), some(cell), (ranges, before, cleared, fresh) => {
        for (const model of [stock, ours]) {
          model._arrayFormulaRange = { u: { s: rangesOf(ranges) } };
          model._arrayFormulaCellData = { u: { s: cellsOf(before.filter(({ v }) => v !== null)) as Rows<object> } };
        }
        const given = cellsOf([...cleared, ...ranges.slice(0, 2).map((one) => ({ ...one, v: 1 }))]);
        for (const model of [stock, ours]) model.clearPreviousArrayFormulaCellData(sheets(given));
        expect(ours._arrayFormulaCellData).toEqual(stock._arrayFormulaCellData);
        expect(ours._arrayFormulaRange).toEqual(stock._arrayFormulaRange);
        const results = cellsOf([...fresh, ...ranges.slice(1, 4).map((one) => ({ ...one, v: 2 }))]);
        for (const model of [stock, ours]) model.mergeArrayFormulaCellData(sheets(results));
        expect(ours._arrayFormulaCellData).toEqual(stock._arrayFormulaCellData);
      }),
      { numRuns: 400 },
    );
  });

  it('read a cell as the engine does, wherever it comes from', () => {
    const prototype = engine.BaseReferenceObject.prototype as unknown as { getCellData(...at: number[]): unknown };
    const stock = prototype.getCellData;
    readCellsQuickly(modules);
    expect(prototype.getCellData).not.toBe(stock);
    const matrix = (rows: Rows<{ v: number } | null>) => new core.ObjectMatrix(rows as never);
    const of = (value: unknown) => ({ u: { s: value } });
    let hidden = 0;
    fc.assert(
      fc.property(some(cell), some(cell), some(cell), some(cell), some(range), some(range), (a, b, c, d, old, now) => {
        const reference = new engine.BaseReferenceObject('A1');
        reference.setDefaultUnitId('u');
        reference.setDefaultSheetId('s');
        reference.setUnitData(of({ cellData: matrix(cellsOf(a)), rowCount: 9, columnCount: 9 }) as never);
        reference.setRuntimeData(of(matrix(cellsOf(b))) as never);
        reference.setRuntimeArrayFormulaCellData(of(matrix(cellsOf(c))) as never);
        reference.setRuntimeFeatureCellData({});
        reference.setArrayFormulaCellData(of(matrix(cellsOf(d))) as never);
        reference.setArrayFormulaRange(of(rangesOf(old)) as never);
        reference.setRuntimeArrayFormulaRange(of(rangesOf([...now, ...old.slice(0, 2)])) as never);
        for (let row = 0; row < 8; row++)
          for (let column = 0; column < 8; column++) {
            const wanted = stock.call(reference, row, column);
            expect(prototype.getCellData.call(reference, row, column) ?? null).toEqual(wanted ?? null);
            if (wanted === null && cellsOf(d)[row]?.[column]) hidden++;
          }
      }),
      { numRuns: 200 },
    );
    expect(hidden).toBeGreaterThan(0);
  });

  it('find the rows that are hidden as the engine does, in every sheet', () => {
    const row = fc.record({ at: fc.nat({ max: 30 }), h: fc.nat({ max: 40 }), hd: fc.constantFrom(0, 1, undefined) });
    const sheet = fc.record({ rows: some(row), rowCount: fc.integer({ min: 1, max: 25 }) });
    let hidden = 0;
    fc.assert(
      fc.property(fc.array(sheet, { minLength: 1, maxLength: 3 }), (sheets) => {
        const univer = new core.Univer({ locale: core.LocaleType.EN_US, logLevel: core.LogLevel.SILENT });
        univer.registerPlugin(engine.UniverFormulaEnginePlugin, {});
        univer.createUnit(core.UniverInstanceType.UNIVER_SHEET, {
          sheetOrder: sheets.map((_, index) => `s${index}`),
          sheets: Object.fromEntries(
            sheets.map(({ rows, rowCount }, index) => [
              `s${index}`,
              { id: `s${index}`, rowCount, rowData: Object.fromEntries(rows.map(({ at, ...rest }) => [at, rest])) },
            ]),
          ),
        });
        const injector = univer.__getInjector();
        const model = injector.get(engine.FormulaDataModel);
        const stock = model.getHiddenRowsFiltered();
        findHiddenRowsQuickly(modules, injector);
        expect(model.getHiddenRowsFiltered).not.toBe(engine.FormulaDataModel.prototype.getHiddenRowsFiltered);
        expect(model.getHiddenRowsFiltered()).toEqual(stock);
        for (const rows of Object.values(Object.values(stock)[0] ?? {})) hidden += Object.keys(rows ?? {}).length;
        univer.dispose();
      }),
      { numRuns: 60 },
    );
    expect(hidden).toBeGreaterThan(0);
  });
});
