import { describe, expect, it } from 'vitest';
import { callById } from '../../../src/functions/index.ts';
import type { Cell } from '../../../src/tables/cells.ts';
import { cite, type ReferenceRow, referenceRows } from '../../references/rows.ts';
import { columnOf, expectFault, tableFrom } from '../rig/tables.ts';

const practice = referenceRows('practice').filter(({ id }) => id.startsWith('EPA-'));
const row = (id: string): ReferenceRow => {
  const found = practice.find((one) => one.id === id);
  if (found === undefined) throw new Error(`practice has no row ${id}`);
  return found;
};
const first = (column: string, ...given: (string | number)[]): Cell =>
  columnOf(tableFrom('RECOVER.TARGET', ...given), column)[0];

describe('RECOVER.TARGET', () => {
  it('EPA-11 low pressure goes to 25 mmHg absolute, whatever the machine', () => {
    for (const machine of ['before', 'after']) {
      expect(Number(first('Pressure', 'low pressure', '400 lb', machine)), cite(row('EPA-11'))).toBeCloseTo(3333, 0);
      expect(first('Level', 'low pressure', 5, machine)).toBe('25 mmHg absolute');
      expect(tableFrom('RECOVER.TARGET', 'low pressure', 5, machine)).toHaveLength(2);
    }
  });

  it('EPA-12 a minor repair or a leak allows 0 psig, in a row below', () => {
    const table = tableFrom('RECOVER.TARGET', 'R-134a', '250 lb');
    expect(columnOf(table, 'Pressure')[1], cite(row('EPA-12'))).toBe(101_325);
    expect(columnOf(table, 'Level')[1]).toBe('0 psig');
  });

  it.each([
    ['EPA-13', 'small appliance, compressor running', 90],
    ['EPA-14', 'small appliance, compressor not running', 80],
  ])('%s %s: %d %% of the charge, or 4 inHg of vacuum', (id, appliance, share) => {
    const table = tableFrom('RECOVER.TARGET', appliance, '3 lb');
    expect(columnOf(table, 'Share of charge'), cite(row(id))).toEqual([share]);
    expect(Number(row(id).value)).toBe(share);
    // (29.9 - 4) inHg of 3386.389 Pa, by hand
    expect(Number(columnOf(table, 'Pressure')[0])).toBeCloseTo(87_707.5, 0);
    expect(columnOf(table, 'Level')[0]).toBe(`${share} % of the charge, or 4 inHg of vacuum`);
  });

  it('EPA-15 a small appliance holds 5 lb at most; both of its cases are shown', () => {
    expect(columnOf(tableFrom('RECOVER.TARGET', 'small appliance', '5 lb'), 'Share of charge')).toEqual([90, 80]);
    expectFault('#VALUE!', /5 lb/u, 'RECOVER.TARGET', 'small appliance', '5.1 lb');
  });

  it('EPA-17 a refrigerant gives the class by its pressure at 104 F', () => {
    const classes: Readonly<Record<string, string>> = {
      'R-123': 'low',
      'R-134a': 'medium',
      'R-600a': 'medium',
      'R-22': 'high',
      'R-410A': 'high',
      'R-32': 'very high',
      'R-744': 'very high',
    };
    for (const [name, expected] of Object.entries(classes)) {
      expect(String(first('Case', name, 1)), cite(row('EPA-17'))).toMatch(new RegExp(`^${expected} pressure`, 'u'));
    }
    for (const near of ['R-410A', 'R-32']) expect(first('Note', near, 1)).toMatch(/near a limit/u);
    expect(first('Note', 'R-134a', 1)).not.toMatch(/near a limit/u);
  });

  it('says that other rules hold elsewhere', () => {
    expect(first('Note', 'R-410A', 5)).toMatch(/Elsewhere the local rule holds/u);
  });

  it('never asks for less vacuum with a larger charge or a newer machine', () => {
    for (const appliance of ['very high pressure', 'high pressure', 'medium pressure', 'low pressure']) {
      const level = (charge: string, machine: string) => Number(first('Pressure', appliance, charge, machine));
      expect(level('300 lb', 'after')).toBeLessThanOrEqual(level('100 lb', 'after'));
      expect(level('300 lb', 'before')).toBeLessThanOrEqual(level('100 lb', 'before'));
      expect(level('300 lb', 'after')).toBeLessThanOrEqual(level('300 lb', 'before'));
    }
  });

  it('reads the date of the machine as a date of the sheet, a year or text; without one it is a recent machine', () => {
    const old = /made before/u;
    // 34288 is 15 November 1993 in a sheet: 34335 is 1 January 1994, 47 days later
    for (const date of [34287, 1990, '1990', '1993-11-14', '14 Nov 1993', 'November 14, 1993', 'before'])
      expect(first('Case', 'R-22', 5, date), String(date)).toMatch(old);
    for (const date of [34288, 2015, '1993-11-15', '15 November 1993', 'Nov 15, 1993', 'after'])
      expect(first('Case', 'R-22', 5, date), String(date)).not.toMatch(old);
    expect(first('Case', 'R-22', 5)).not.toMatch(old);
    for (const date of ['3/4/95', 1993, '1993', -5, '31 Feb 1995', 'long ago', true])
      expect(callById('RECOVER.TARGET', ['R-22', 5, date]), String(date)).toMatchObject({ ok: false, code: '#VALUE!' });
  });

  it('refuses bad input in words', () => {
    expectFault('#N/A', /low pressure.*R-410A/u, 'RECOVER.TARGET', 'chiller', 5);
    expectFault('#VALUE!', /vehicle/u, 'RECOVER.TARGET', 'vehicle air conditioner', 0.5);
    expectFault('#VALUE!', /charge/iu, 'RECOVER.TARGET', 'R-22', 0);
    expectFault('#VALUE!', /charge/iu, 'RECOVER.TARGET', 'R-22', null);
  });
});
