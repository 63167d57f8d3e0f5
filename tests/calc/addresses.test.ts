import { afterEach, describe, expect, test } from 'vitest';
import type { Calculator } from '../../src/calc/calculator.ts';
import { createNodeCalculator } from '../../src/calc/node.ts';
import { closeEditors, editor } from './editor.ts';
import { type Content, spot, workbook } from './fixture.ts';

const open: Calculator[] = [];

afterEach(() => {
  for (const calculator of open.splice(0)) calculator.dispose();
  closeEditors();
});

/** Rows of cells from an address on. */
function block(from: string, rows: readonly (readonly Content[])[]): [string, number, number, Content][] {
  const { row, column } = spot(from);
  return rows.flatMap((cells, r) =>
    cells.map((cell, c): [string, number, number, Content] => ['Pipe runs', row + r, column + c, cell]),
  );
}

const PARTS = [
  ['Rig', 'Kind', 'Speed (m3/h)', 'Bore (mm)', 'Length (m)'],
  ['small', 'pump', 4, null, null],
  ['small', 'hose', null, 6, 1.5],
];
const PORTS = [
  ['Node', 'Rig'],
  ['plant', 'small'],
];

/** A workbook with our functions: pipe runs from B4 on, parts from B14 on, ports from H14 on, conditions from L4 on. */
async function project(
  runs: readonly (readonly Content[])[],
  conditions: readonly (readonly Content[])[] = [['Volume', 5]],
  formulas: Readonly<Record<string, string>> = {},
  ports: readonly (readonly Content[])[] = PORTS,
) {
  const names = { Runs: "'Pipe runs'!$B$4:$G$12", Conditions: "'Pipe runs'!$L$4:$N$8" };
  const calculator = createNodeCalculator();
  open.push(calculator);
  calculator.load(workbook({ S: {}, 'Pipe runs': {} }, names));
  for (const [sheet, row, column, content] of [
    ...block('B4', runs),
    ...block('B14', PARTS),
    ...block('H14', ports),
    ...block('L4', conditions),
  ])
    calculator.put(sheet, row, column, content);
  for (const [address, formula] of Object.entries(formulas)) {
    const { row, column } = spot(address);
    calculator.put('S', row, column, formula);
  }
  await calculator.recalculate();
  const said = (formula: string): string => {
    const [answer] = calculator.evaluate([formula], { sheet: 'S' });
    if (answer === undefined) return '';
    if ('error' in answer) return answer.message;
    return typeof answer.value === 'string' ? answer.value : JSON.stringify(answer);
  };
  const shown = (address: string): string => {
    const { row, column } = spot(address);
    const found = calculator
      .faults()
      .find((fault) => fault.sheet === 'S' && fault.row === row && fault.column === column);
    return found?.message ?? '';
  };
  return { said, shown, calculator };
}

const RUNS = [
  ['Unit', 'Size', 'Length (m)', 'Count', 'From', 'To'],
  ['roof', '5/8 in', 40, 1, 'plant', 'coil'],
];
const withRun = (...run: readonly Content[]) => [...RUNS, [null, null, null], run];

describe('a fault in a table begins with the address of its cell', () => {
  // the header is row 4 of the sheet; a blank row of the range counts, so the third run stands in row 7: Length is column D
  const bad = withRun('cellar', '3/8 in', -3, 1, 'plant', 'pump room');
  const words = 'Pipe runs!D7: Length is -3 m: it must be at least 0 m.';

  test('by the name of a range, by its address, and in the cell of a formula', async () => {
    const { said, shown } = await project(bad, [['Volume', 5]], {
      A1: '=NARROWS.RUN.VOLUME("roof",Runs)',
      A2: "=NARROWS.RUN.TABLE('Pipe runs'!B4:G12)",
    });
    expect(said('=NARROWS.RUN.TABLE(Runs)')).toBe(words);
    expect(said("=NARROWS.RUN.TABLE('Pipe runs'!B4:G12)")).toBe(words);
    expect(shown('A2')).toBe(words);
  });

  test('asked for with WHY', async () => {
    const { said } = await project(bad);
    expect(said('=NARROWS.WHY("RUN.TABLE",Runs)')).toBe(words);
  });

  test('for a table of the same content that stands elsewhere, each by its own address', async () => {
    const { said, calculator } = await project(bad);
    bad.forEach((cells, row) => {
      cells.forEach((cell, column) => {
        calculator.put('S', 20 + row, column, cell);
      });
    });
    await calculator.recalculate();
    expect(said("=NARROWS.RUN.TABLE('Pipe runs'!B4:G7)")).toBe(words);
    expect(said('=NARROWS.RUN.TABLE(A21:F24)')).toBe('S!C24: Length is -3 m: it must be at least 0 m.');
    expect(said("=NARROWS.RUN.TABLE('Pipe runs'!B4:G7)")).toBe(words);
  });

  test('of a range that a reference function gives', async () => {
    const { said } = await project(bad);
    expect(said("=NARROWS.RUN.TABLE(OFFSET('Pipe runs'!A3,1,1,9,6))")).toBe(words);
  });

  test('but an array that was worked out has none: its row of the range is told', async () => {
    const { said } = await project(bad);
    const inRange = 'Runs, row 4 of the range, column Length (m): Length is -3 m: it must be at least 0 m.';
    expect(said("=NARROWS.RUN.TABLE(VSTACK('Pipe runs'!B4:G7))")).toBe(inRange);
    expect(said('=NARROWS.RUN.TABLE({"Unit","Size","Length (m)";"roof","5/8 in",-3})')).toBe(
      'Runs, row 2 of the range, column Length (m): Length is -3 m: it must be at least 0 m.',
    );
  });
});

test('a fault of a whole row or a whole table has the address of the row or the table', async () => {
  const network = "=NARROWS.EVAC.NETWORK(Runs,'Pipe runs'!H14:I16,'Pipe runs'!B14:F16)";
  const islands = await project(withRun('cellar', '3/8 in', 3, 1, 'boiler', 'drain'));
  expect(islands.said(network)).toMatch(/^Pipe runs!B7:G7: The way to a port from "boiler"/);
  const noColumn = await project([
    ['Unit', 'Width'],
    ['roof', 3],
  ]);
  expect(noColumn.said('=NARROWS.RUN.TABLE(Runs)')).toMatch(/^Pipe runs!B5:G5, column Size: Size or Bore is blank/);
  const noHeader = await project(RUNS, [['Volume', 5]], {}, [
    ['Where', 'Rig'],
    ['plant', 'small'],
  ]);
  expect(noHeader.said(network)).toMatch(/^Pipe runs!H14:I14: The ports table has no column "Node"/);
  const empty = await project([RUNS[0] ?? []]);
  expect(empty.said('=NARROWS.RUN.TABLE(Runs)')).toMatch(/^Pipe runs!B4:G12: The runs table has no rows\./);
});

test('a fault that names two rows of a table has the addresses of both', async () => {
  const { said } = await project(RUNS, [['Volume', 5]], {}, [...PORTS, ['Plant', 'small']]);
  expect(said("=NARROWS.EVAC.NETWORK(Runs,'Pipe runs'!H14:I16,'Pipe runs'!B14:F16)")).toMatch(
    /^Pipe runs!H16: Node is "Plant", which has a rig already \(Pipe runs!H15:I15\)/,
  );
});

describe('a fault of a condition begins with the address of its name, value or unit', () => {
  test.each<[readonly Content[], string]>([
    [['Target pressure', -5, 'micron'], 'Pipe runs!M5: Target pressure is -5 micron'],
    [['Target pressure', 5, 'ft'], 'Pipe runs!N5: Target pressure has the unit "ft"'],
    [['Target pressure (ft)', 5], 'Pipe runs!L5: Target pressure has the unit "ft"'],
    [['Pressure of work', 5], 'Pipe runs!L5: There is no condition "Pressure of work"'],
    [['Report units', 'cubits'], 'Pipe runs!M5: There is no set of report units "cubits"'],
  ])('%j', async (condition, begins) => {
    const { said } = await project(RUNS, [['Volume', 5], condition]);
    expect(said('=NARROWS.EVAC.TIME(5,\'Pipe runs\'!B14:F16,"small",Conditions)').slice(0, begins.length)).toBe(begins);
  });
});

test('a row that is told of within a table of results has its address there, too, the same in the cell and in its error', async () => {
  const { calculator, said } = await project(RUNS);
  const units = [
    ['Unit', 'Volume (L)', 'Rig'],
    ['roof', 5, 'small'],
    ['cellar', -5, 'small'],
  ];
  units.forEach((cells, row) => {
    cells.forEach((cell, column) => {
      calculator.put('S', 29 + row, 1 + column, cell);
    });
  });
  await calculator.recalculate();
  // Volume is column C, the unit stands in row 32
  const answer = JSON.parse(said("=NARROWS.EVAC.PROJECT(B30:D32,'Pipe runs'!B14:F16)"));
  const words = 'S!C32: Volume is -5 L: it must be above 0 L.';
  expect(answer.value[2]).toContain(words);
  expect(answer.errors.map(({ message }: { message: string }) => message)).toContain(words);
});

test('the address follows rows that are put in above the table', async () => {
  const { type, change, words } = await editor({
    A4: 'Unit',
    B4: 'Rig',
    A5: 'roof',
    B5: 'no such rig',
    D1: '=NARROWS.TEST.TABLE(A4:B5)',
  });
  expect(words('D1')).toBe('S!B5: There is no such rig.');
  const above = { startRow: 2, endRow: 2, startColumn: 0, endColumn: 20 };
  await change('sheet.command.insert-row-by-range', { range: above, direction: 0 });
  expect(words('D1')).toBe('S!B6: There is no such rig.');
  await type({ D1: '=NARROWS.TEST.TABLE(A5:B6)' });
  expect(words('D1')).toBe('S!B6: There is no such rig.');
});

test('the address follows the name of the sheet', async () => {
  const { change, words } = await editor({ A4: 'Unit', B4: 'Rig', B5: 'x', D1: '=NARROWS.TEST.TABLE(S!A4:B5)' });
  await change('sheet.command.set-worksheet-name', { name: 'Yard' });
  expect(words('D1')).toBe('Yard!B5: There is no such rig.');
});
