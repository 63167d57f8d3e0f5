import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Calculator, createCalculator } from '../../src/calc/calculator.ts';
import { loadUniver } from '../../src/calc/univer-node.ts';
import { callFunction } from '../../src/functions/adapter.ts';
import { callById, functions } from '../../src/functions/index.ts';
import type { Cell } from '../../src/tables/cells.ts';
import { newWorkbook } from '../../src/workbook/build.ts';
import type { WorkbookModel } from '../../src/workbook/model.ts';
import { readWorkbook } from '../../src/workbook/read.ts';
import { scenarioKinds, scenarioUnits } from '../../templates/scenario.ts';
import { recoverySheet } from '../../templates/sheets/recovery.ts';

const HEADER_ROW = 16;
const FIRST = HEADER_ROW + 1;
const COLUMN = { count: 2, charge: 3, recoverIn: 7, recoverOut: 8, chargeIn: 9, chargeOut: 10, cylinders: 11 } as const;

/** The sheet alone, and the lists that its cells open. */
const model: WorkbookModel = { title: 'Recovery', description: '', sheets: [recoverySheet] };

describe('the Recovery sheet', () => {
  let calculator: Calculator;
  beforeAll(async () => {
    calculator = createCalculator(loadUniver(), functions, callFunction);
    calculator.load((await readWorkbook(await newWorkbook(model))).snapshot);
    await calculator.recalculate();
  });
  afterAll(() => calculator.dispose());

  const at = (row: number, column: keyof typeof COLUMN): number =>
    Number(calculator.value('Recovery', row, COLUMN[column]));
  const rows = scenarioKinds.map((_, index) => FIRST + index);

  it('has no cell that ends in an error', () => {
    expect(calculator.faults()).toEqual([]);
  });

  it('has one row for each kind of unit, with as many as the building has', () => {
    expect(rows.map((row) => calculator.value('Recovery', row, 0))).toEqual(scenarioKinds.map(({ kind }) => kind));
    const counted = rows.reduce((sum, row) => sum + at(row, 'count'), 0);
    expect(counted).toBe(scenarioUnits.reduce((sum, { count }) => sum + count, 0));
  });

  it('shows that taking the core out shortens recovery and charging of every kind', () => {
    for (const row of rows) {
      expect(at(row, 'recoverOut'), `row ${row}`).toBeLessThan(at(row, 'recoverIn'));
      expect(at(row, 'chargeOut'), `row ${row}`).toBeLessThan(at(row, 'chargeIn') / 2);
    }
  });

  it('adds the hours up over all units', () => {
    const hours = rows.reduce(
      (sum, row) => sum + (at(row, 'count') * (at(row, 'recoverIn') + at(row, 'chargeIn'))) / 60,
      0,
    );
    expect(calculator.value('Recovery', 12, 1)).toBeCloseTo(hours, 6);
    expect(Number(calculator.value('Recovery', 13, 1))).toBeLessThan(hours);
  });

  it('takes one cylinder for a small unit and several for the chiller', () => {
    expect(at(FIRST, 'cylinders')).toBe(1);
    const chiller = FIRST + scenarioKinds.findIndex(({ kind }) => kind.startsWith('Plant-room chiller'));
    const fill = callById('CYLINDER.FILL', ['R-513A', 26]);
    expect(at(chiller, 'cylinders')).toBe(Math.ceil(110 / Number(fill.ok ? fill.value : 0)));
  });

  it('has rigs in which CHECK finds no fault', () => {
    const gear = (recoverySheet.blocks ?? []).slice(-2).flatMap(({ rows }) => rows as Cell[][]);
    expect(callById('CHECK', [gear, 'parts'])).toMatchObject({
      ok: true,
      value: [expect.anything(), ['', '', 'no fault found', '']],
    });
  });

  it('works a kind of unit out that is added in a spare row', async () => {
    const row = FIRST + scenarioKinds.length;
    ['Window unit', 'R-290', 4, 0.3, 1.5, 8, 5].forEach((value, column) => {
      calculator.put('Recovery', row, column, value);
    });
    await calculator.recalculate();
    expect(calculator.faults()).toEqual([]);
    expect(at(row, 'recoverIn')).toBeGreaterThan(0);
    expect(at(row, 'chargeOut')).toBeGreaterThan(0);
  });

  it('says in words why a charge stops short when the cylinder is left cold', async () => {
    calculator.put('Recovery', 7, 1, 15);
    calculator.put('Recovery', 8, 1, 15);
    await calculator.recalculate();
    expect(calculator.faults().some(({ message }) => message.includes('Warm the cylinder'))).toBe(true);
  });
});
