import { afterEach, describe, expect, it } from 'vitest';
import { installNarrows } from '../../src/calc/install.ts';
import { loadUniver } from '../../src/calc/univer-node.ts';
import { functions, workbook } from './fixture.ts';

const modules = loadUniver();
const { core, engine } = modules;
const LINKS = 400;

/** A workbook of one long chain: A1 = 1, A2 = A1 + 1, … each link takes a while to work out. */
function chain() {
  const univer = new core.Univer({ locale: core.LocaleType.EN_US, logLevel: core.LogLevel.SILENT });
  univer.registerPlugin(engine.UniverFormulaEnginePlugin, {});
  const data = workbook({ Chain: {} });
  const cells = Object.fromEntries(
    Array.from({ length: LINKS }, (_, row) => [
      row,
      { 0: row === 0 ? { v: 1, t: 2 } : { f: `=NARROWS.TEST.WAIT(A${row})` } },
    ]),
  );
  Object.assign(data.sheets['id-Chain'] ?? {}, { cellData: cells });
  const sheet = univer.createUnit(core.UniverInstanceType.UNIVER_SHEET, data);
  const injector = univer.__getInjector();
  let worked = 0;
  const [first] = functions;
  if (first === undefined) throw new Error('the fixture has no function');
  const { pace } = installNarrows(modules, injector, [{ ...first, id: 'TEST.WAIT' }], (_, [value]) => {
    worked += 1;
    const until = performance.now() + 1;
    while (performance.now() < until);
    return { ok: true, value: Number(value) + 1 };
  });
  const calculation = injector.get(engine.ICalculateFormulaService);
  const model = injector.get(engine.FormulaDataModel);
  const start = (changes: object) =>
    calculation.execute({
      formulaData: model.getFormulaData(),
      arrayFormulaCellData: {},
      arrayFormulaRange: {},
      forceCalculate: false,
      dirtyRanges: [],
      dirtyNameMap: {},
      dirtyDefinedNameMap: {},
      dirtyUnitFeatureMap: {},
      dirtyUnitOtherFormulaMap: {},
      ...changes,
    });
  let results = new Map<number, unknown>();
  calculation.executionCompleteListener$.subscribe((data) => {
    for (const sheets of Object.values(data.unitData)) {
      for (const cellsOf of Object.values(sheets ?? {})) {
        cellsOf?.forValue((row, _column, cell) => {
          results.set(row, cell?.v);
        });
      }
    }
  });
  const over = () =>
    new Promise<void>((resolve) => {
      const stop = pace.onProgress(({ running }) => {
        if (running) return;
        stop();
        resolve();
      });
    });
  return {
    pace,
    start,
    over,
    unitId: sheet.getUnitId(),
    worked: () => worked,
    last: () => results.get(LINKS - 1),
    forget() {
      results = new Map();
    },
    dispose: () => univer.dispose(),
  };
}

describe('a long calculation', () => {
  let open: ReturnType<typeof chain> | undefined;
  afterEach(() => open?.dispose());

  it('lets go of the thread on the way and tells how far it is', async () => {
    open = chain();
    const seen: number[] = [];
    open.pace.onProgress(({ done }) => seen.push(done));
    const ended = open.over();
    void open.start({ forceCalculate: true });
    let turns = 0;
    const ticking = setInterval(() => {
      turns += 1;
    }, 1);
    await ended;
    clearInterval(ticking);
    expect(turns).toBeGreaterThan(3);
    expect(new Set(seen).size).toBeGreaterThan(3);
    expect(open.last()).toBe(LINKS);
    expect(open.pace.progress()).toMatchObject({ running: false, owing: false });
  });

  it('stops between two formulas, says that values are owed, and works them out when told to go on', async () => {
    open = chain();
    const stopped = open.over();
    void open.start({ forceCalculate: true });
    const { pace } = open;
    setTimeout(() => pace.stop(), 60);
    await stopped;
    expect(open.worked()).toBeLessThan(LINKS - 1);
    expect(pace.progress()).toMatchObject({ running: false, owing: true });
    open.forget();
    const ended = open.over();
    pace.resume();
    await ended;
    expect(open.last()).toBe(LINKS);
    expect(pace.progress()).toMatchObject({ owing: false });
  });

  it('forgets no change of a stopped calculation when another change comes first', async () => {
    open = chain();
    const stopped = open.over();
    void open.start({ forceCalculate: true });
    const { pace, unitId } = open;
    setTimeout(() => pace.stop(), 60);
    await stopped;
    open.forget();
    const ended = open.over();
    // touches a cell that nothing reads
    const range = { startRow: 5, endRow: 5, startColumn: 9, endColumn: 9 };
    void open.start({ dirtyRanges: [{ unitId, sheetId: 'id-Chain', range }] });
    await ended;
    expect(open.last()).toBe(LINKS);
  });

  it('begins anew when a change comes while it runs, and ends right', async () => {
    open = chain();
    void open.start({ forceCalculate: true });
    const { start, pace } = open;
    await new Promise((resolve) => setTimeout(resolve, 60));
    void start({});
    await new Promise<void>((resolve) => {
      const stop = pace.onProgress(({ running, owing }) => {
        if (running || owing) return;
        stop();
        resolve();
      });
    });
    expect(open.last()).toBe(LINKS);
  });
});
