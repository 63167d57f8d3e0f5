import { describe, expect, it } from 'vitest';
import { callById } from '../../../src/functions/index.ts';
import type { Cell } from '../../../src/tables/cells.ts';
import { expectFault, tableFrom } from '../rig/tables.ts';

const rows = (...given: (string | number)[]): readonly (readonly Cell[])[] =>
  tableFrom('RECOVER.TARGET', ...given).slice(1);
const NEW = 'machine made on or after 15 November 1993';
const OLD = 'machine made before 15 November 1993';

describe('the case and the level of RECOVER.TARGET', () => {
  // 40 CFR 82.156 Table 1, inHg of vacuum relative to an atmosphere of 29.9 inHg; 200 lb divides the charges
  it.each([
    ['very high pressure', '300 lb', 'after', `very high pressure; ${NEW}`, '0 inHg of vacuum'],
    ['high pressure', '199 lb', 'after', `high pressure, full charge under 200 lb; ${NEW}`, '0 inHg of vacuum'],
    ['high pressure', '200 lb', 'before', `high pressure, full charge 200 lb or more; ${OLD}`, '4 inHg of vacuum'],
    ['high pressure', '200 lb', 'after', `high pressure, full charge 200 lb or more; ${NEW}`, '10 inHg of vacuum'],
    ['medium pressure', '199 lb', 'before', `medium pressure, full charge under 200 lb; ${OLD}`, '4 inHg of vacuum'],
    ['medium pressure', '199 lb', 'after', `medium pressure, full charge under 200 lb; ${NEW}`, '10 inHg of vacuum'],
    ['medium pressure', '200 lb', 'before', `medium pressure, full charge 200 lb or more; ${OLD}`, '4 inHg of vacuum'],
    ['medium pressure', '200 lb', 'after', `medium pressure, full charge 200 lb or more; ${NEW}`, '15 inHg of vacuum'],
    ['low pressure', '300 lb', 'before', `low pressure; ${OLD}`, '25 mmHg absolute'],
    ['low pressure', '300 lb', 'after', `low pressure; ${NEW}`, '25 mmHg absolute'],
  ])('%s, %s, a machine of %s', (appliance, charge, machine, said, level) => {
    const [first = [], second] = rows(appliance, charge, machine);
    expect([first[0], first[2], first[3], first[4]]).toEqual([said, level, '', '40 CFR 82.156 Table 1']);
    expect(first[5]).toMatch(/^This is the rule of the United States\. Elsewhere the local rule holds/);
    const inches = Number(/^(\d+) inHg/.exec(level)?.[1] ?? Number.NaN);
    // an inch of mercury: 3386.389 Pa; 25 mm of mercury: 3333 Pa; 29.9 in stands for the atmosphere
    const pascal = level.startsWith('25 mm') ? 25 * 133.322 : (29.9 - inches) * 3386.389;
    expect(Number(first[1]) / pascal).toBeCloseTo(1, 3);
    // the exception for minor repairs stands where there is a level to fall short of, and for low pressure does not
    if (inches > 0)
      expect(second).toEqual([
        'repair that is not major and not followed by evacuation to atmosphere, or a leak that allows no more',
        101_325,
        '0 psig',
        '',
        '40 CFR 82.156(a)',
        'Read the rule before you lean on this exception.',
      ]);
    else expect(second).toBeUndefined();
  });

  it('says what made the class', () => {
    expect(rows('R-744', 5)[0]?.[5]).toMatch(
      /^R-744 is above its critical temperature at 104 F: very high pressure\. This is/,
    );
    expect(rows('R-123', 5)[0]?.[5]).toMatch(/^R-123 counts as low pressure\. This is/);
    // R-134a at 104 °F: 146 to 148 psia in published tables, from memory
    expect(rows('R-134a', 5)[0]?.[5]).toMatch(/^R-134a has 14[678] psia at 104 F: medium pressure\. This is/);
    expect(rows('R-32', 5)[0]?.[5]).toMatch(/near a limit of the classes: the list of the agency decides\. This is/);
  });

  it('tells the two cases of a small appliance, and what older machines were asked for', () => {
    const [running, still] = rows('small appliance', '5 lb', 'before');
    expect(running?.slice(0, 1)).toEqual(['small appliance, compressor running']);
    expect(running?.[4]).toBe('40 CFR 82.156(b)');
    expect(running?.[5]).toMatch(
      /^For machines made before 15 November 1993 the rule asked for 80 %; 90 % is on the safe side\. This is/,
    );
    expect(still?.[0]).toBe('small appliance, compressor not running');
    expect(still?.[5]).toMatch(/^This is the rule/);
    expect(rows('small appliance', '5 lb', 'after')[0]?.[5]).toMatch(/^This is the rule/);
    expectFault(
      '#VALUE!',
      /at most 5 lb.*no small appliance in the sense of the rule/,
      'RECOVER.TARGET',
      'small appliance',
      '5.01 lb',
    );
    expectFault('#VALUE!', /stationary appliance.*40 CFR 82 subpart B/, 'RECOVER.TARGET', 'MVAC', 0.5);
  });
});

describe('the date of a machine', () => {
  const isOld = (date: string | number): boolean => String(rows('R-22', 5, date)[0]?.[0]).includes('made before');

  it.each([
    '1 Mar 1993',
    '1.March 1993',
    '01 mar. 1993',
    '1  Mar,  1993',
    'Mar 1 1993',
    'mar.  01,  1993',
    '1993-3-1',
    'old',
    ' before ',
  ])('%s is before 15 November 1993', (date) => {
    expect(isOld(date)).toBe(true);
  });

  it.each([
    '15 Nov 1993',
    'November 15, 1993',
    '1 Jan 1994',
    'Jan 1 1994',
    '1993-11-15',
    'on or after',
    'NEW',
    '1994',
    1994,
    2200,
    '34288',
  ])('%s is not', (date) => {
    expect(isOld(date)).toBe(false);
  });

  it('is a day of the sheet where it is too large for a year, and a part of a day counts as its day', () => {
    expect(isOld(34287.99)).toBe(true);
    expect(isOld(34288.01)).toBe(false);
    // 8 January 1906 and 9 January 1906
    expect([isOld(2200.5), isOld(2201)]).toEqual([true, true]);
    expect([isOld(1900), isOld(1992)]).toEqual([true, true]);
  });

  it.each([
    '31 Apr 1994',
    '30 Feb 1994',
    '1994-13-01',
    '1994-00-10',
    '1 Xyz 1994',
    'on 1 Mar 1994',
    '1 Mar 1994 or so',
    'x1994-01-01',
    '1994-01-011',
    1899.9,
    1994.5,
    '1994.25',
    'Mar 1994',
  ])('%s is refused with what is allowed', (date) => {
    const outcome = callById('RECOVER.TARGET', ['R-22', 5, date]);
    expect(outcome).toMatchObject({ ok: false, code: '#VALUE!' });
    if (outcome.ok) return;
    expect(outcome.message).toContain(typeof date === 'string' ? `"${date}"` : String(date));
    expect(outcome.message).toMatch(/a date, a year but 1993.*Write the date as 1993-11-15 or 15 Nov 1993/);
  });
});
