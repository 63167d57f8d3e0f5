import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Calculator, createCalculator } from '../../src/calc/calculator.ts';
import { loadUniver } from '../../src/calc/univer-node.ts';
import { callFunction } from '../../src/functions/adapter.ts';
import { callById, functions } from '../../src/functions/index.ts';
import type { Cell } from '../../src/tables/cells.ts';
import { newWorkbook } from '../../src/workbook/build.ts';
import type { ModelSheet } from '../../src/workbook/model.ts';
import { readWorkbook } from '../../src/workbook/read.ts';
import { templateModel } from '../../templates/model.ts';
import { templateRigs } from '../../templates/rigs.ts';
import { scenarioUnits } from '../../templates/scenario.ts';

/** Rows of a sheet's input table as a function gets them: header block first, then its rows. */
function tableOf(sheet: ModelSheet, columns: number): Cell[][] {
  return (sheet.blocks ?? [])
    .slice(0, 2)
    .flatMap(({ rows }) =>
      rows.map((row) =>
        row
          .slice(0, columns)
          .map((cell) => (typeof cell === 'object' && cell !== null ? (cell.value ?? null) : (cell ?? null))),
      ),
    );
}

describe('CHECK finds no fault in the tables that ship', () => {
  const model = templateModel();
  it.each([
    ['Parts', 'parts', 14],
    ['Pipe runs', 'runs', 9],
    ['Units', 'units', 20],
    ['Conditions', 'conditions', 3],
  ])('%s', (name, kind, columns) => {
    const sheet = model.sheets.find((one) => one.name === name);
    const outcome = callById('CHECK', [sheet === undefined ? null : tableOf(sheet, columns), kind]);
    expect(outcome).toMatchObject({ ok: true, value: [expect.anything(), ['', '', 'no fault found', '']] });
  });
});

describe('somebody who fills in the template', () => {
  let calculator: Calculator;
  beforeAll(async () => {
    calculator = createCalculator(loadUniver(), functions, callFunction);
    calculator.load((await readWorkbook(await newWorkbook(templateModel()))).snapshot);
    await calculator.recalculate();
  });
  afterAll(() => calculator.dispose());

  const FIRST_RESULT = 10;
  const MINUTES = 5;
  const minutes = (index: number): number => Number(calculator.value('Results', FIRST_RESULT + index, MINUTES));

  it('sees the minutes of a unit fall when its rig is changed for a wide hose with the core out', async () => {
    const unit = scenarioUnits.findIndex(({ rig }) => rig === 'A core in, small hose');
    const before = minutes(unit);
    calculator.put('Units', 4 + unit, 5, 'F half-inch hose, core out');
    await calculator.recalculate();
    expect(minutes(unit)).toBeLessThan(before / 2);
  });

  it('sees the total of a unit grow with water, and the rows of others stay when one cell is bad', async () => {
    const TOTAL = 10;
    const VERDICT = 8;
    const total = (index: number) => Number(calculator.value('Results', FIRST_RESULT + index, TOTAL));
    const before = total(1);
    const others = total(0);
    calculator.put('Units', 4 + 1, 8, 5);
    await calculator.recalculate();
    expect(total(1)).toBeGreaterThan(2 * before);
    calculator.put('Units', 4 + 1, 8, 'a cupful');
    await calculator.recalculate();
    expect(String(calculator.value('Results', FIRST_RESULT + 1, VERDICT))).toMatch(/^Units!I6: Water is "a cupful"/);
    expect(total(0)).toBe(others);
    calculator.put('Units', 4 + 1, 8, null);
    await calculator.recalculate();
    expect(total(1)).toBeCloseTo(before, 9);
  });

  it('adds a unit in a spare row, and table and totals grow', async () => {
    const before = Number(calculator.value('Results', 3, 1));
    const attended = Number(calculator.value('Start', 11, 2));
    const row = 4 + scenarioUnits.length;
    ['WS25-9', 'Wall split 2.5 kW', 'Annexe', 5, 3.5, 'A core in, small hose', 500, 'R-32'].forEach((value, column) => {
      calculator.put('Units', row, column, value);
    });
    await calculator.recalculate();
    expect(calculator.faults()).toEqual([]);
    expect(calculator.value('Results', FIRST_RESULT + scenarioUnits.length, 0)).toBe('WS25-9');
    expect(calculator.value('Results', 3, 1)).toBe(before + 5);
    // 20 + 15 min and two readings of 2 min for each of five units (Conditions); a row without an area has no way, and so short a pull no look
    expect(calculator.value('Start', 11, 2)).toBeCloseTo(attended + (5 * 39) / 60, 6);
    expect(calculator.value('Crew', 12 + before + 5, 1)).toEqual(expect.any(String));
  });

  it('tries two pump speeds on every rig', async () => {
    calculator.put('Compare', 4, 1, '4 cfm');
    calculator.put('Compare', 4, 2, '10 cfm');
    await calculator.recalculate();
    expect(calculator.faults()).toEqual([]);
    expect(calculator.value('Compare', 7 + 2 * templateRigs.length, 0)).toBe(templateRigs.at(-1)?.name);
  });

  it('looks into any rig of the list without an error', async () => {
    for (const { name } of templateRigs) {
      calculator.put('One rig', 3, 1, name);
      await calculator.recalculate();
      expect(calculator.faults(), name).toEqual([]);
    }
  }, 240_000);

  it('reads the cautions for a flammable refrigerant, local codes first', async () => {
    calculator.put('Cautions', 3, 1, 'charging');
    calculator.put('Cautions', 4, 1, 'R-290');
    await calculator.recalculate();
    expect(calculator.faults()).toEqual([]);
    expect(String(calculator.value('Cautions', 7, 2))).toMatch(/local codes/i);
  });

  it('gets a fault in words, and no number, for a rig that is not there', async () => {
    calculator.put('One rig', 3, 1, 'no such rig');
    await calculator.recalculate();
    const faults = calculator.faults().filter(({ sheet }) => sheet === 'One rig');
    expect(faults.length).toBeGreaterThan(0);
    expect(faults[0]?.message).toMatch(/no such rig/);
  });
});
