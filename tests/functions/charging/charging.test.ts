import { describe, expect, it } from 'vitest';
import { callById } from '../../../src/functions/index.ts';
import type { Cell, CellRange } from '../../../src/tables/cells.ts';

const PARTS: CellRange = [
  ['Rig', 'Part', 'Kind', 'Bore (mm)', 'Length (m)', 'Speed (cfm)'],
  ['core in', 'pump', 'pump', '', '', 5],
  ['core in', 'hose', 'hose', 4.8, 1.5, ''],
  ['core in', 'core', 'core', 1.6, 0.006, ''],
  ['core out', 'pump', 'pump', '', '', 20],
  ['core out', 'hose', 'hose', 4.8, 1.5, ''],
  ['core out', 'port', 'port', 4.7, '', ''],
  ['bare', 'pump', 'pump', '', '', 5],
];

const minutes = (name: string, mass: Cell, rig: string, ...rows: Cell[][]) =>
  callById('CHARGE.TIME', [name, mass, PARTS, rig, [['Volume', '8 L'], ...rows]]);

function value(outcome: ReturnType<typeof callById>): number {
  if (!outcome.ok || typeof outcome.value !== 'number') throw new Error(JSON.stringify(outcome));
  return outcome.value;
}

function curve(...rows: Cell[][]): CellRange {
  const outcome = callById('CHARGE.CURVE', ['R-134a', 2, PARTS, 'core in', 9, [['Volume', '8 L'], ...rows]]);
  if (!outcome.ok || !Array.isArray(outcome.value)) throw new Error(JSON.stringify(outcome));
  return outcome.value as CellRange;
}

describe('CHARGE.TIME', () => {
  it('is shorter with the core taken out', () => {
    expect(value(minutes('R-410A', 3, 'core out'))).toBeLessThan(value(minutes('R-410A', 3, 'core in')) / 2);
  });

  it('does not ask how large the pump is: it stands still', () => {
    const large = PARTS.map((row) => row.map((cell) => (cell === 5 ? 50 : cell)));
    const conditions = [['Volume', '8 L']];
    expect(callById('CHARGE.TIME', ['R-410A', 3, large, 'core in', conditions])).toEqual(
      minutes('R-410A', 3, 'core in'),
    );
  });

  it('takes the mass in pounds and the refrigerant as people spell it', () => {
    expect(value(minutes('r410a', `${3 / 0.45359237} lb`, 'core in'))).toBeCloseTo(
      value(minutes('R-410A', 3, 'core in')),
      8,
    );
  });

  it.each([
    ['no such refrigerant', minutes('R-999', 3, 'core in'), '#N/A', 'R-410A'],
    ['no Volume', callById('CHARGE.TIME', ['R-410A', 3, PARTS, 'core in']), '#VALUE!', 'Volume'],
    ['a charge that does not fit', minutes('R-410A', 9, 'core in'), '#N/A', 'does not fit'],
    [
      'more than the cylinder holds',
      minutes('R-410A', 3, 'core in', ['Cylinder charge', 2]),
      '#VALUE!',
      'Cylinder charge',
    ],
    ['Ambient above the critical temperature', minutes('R-744', 3, 'core in', ['Ambient', 35]), '#VALUE!', 'critical'],
    ['a blend with a glide as vapour', minutes('R-407C', 1, 'core in', ['Charge as', 'vapour']), '#VALUE!', 'liquid'],
    ['a way to charge that there is not', minutes('R-410A', 1, 'core in', ['Charge as', 'foam']), '#N/A', 'vapour'],
    ['a rig without parts', minutes('R-410A', 1, 'bare'), '#VALUE!', 'bare'],
  ])('tells %s in words', (_, outcome, code, words) => {
    expect(outcome).toMatchObject({ ok: false, code, message: expect.stringContaining(words) });
  });

  it('says how much went in where the pressures meet, and what helps', () => {
    const outcome = minutes('R-134a', 3, 'core in', ['Heat', 20], ['Cylinder heat', 3]);
    expect(outcome).toMatchObject({ ok: false, code: '#N/A' });
    const { message } = outcome as { message: string };
    expect(message).toMatch(/Only 2\.\d+ kg of the 3 kg go in: after \d\.\d+ min the pressures/u);
    expect(message).toContain('Warm the cylinder');
  });
});

describe('CHARGE.CURVE', () => {
  it('runs evenly in time from an empty system to the whole charge, as CHARGE.TIME has it', () => {
    const [header, ...rows] = curve();
    expect(header?.slice(0, 3)).toEqual(['Time (min)', 'In the system (kg)', 'Rate (kg/min)']);
    expect(rows).toHaveLength(9);
    expect(rows[0]?.slice(0, 2)).toEqual([0, 0]);
    expect(rows[8]?.[0]).toBeCloseTo(value(minutes('R-134a', 2, 'core in')), 9);
    expect(rows[8]?.[1]).toBeCloseTo(2, 6);
    expect(rows[8]?.[7]).toBe('all is in');
    expect(Number(rows[4]?.[0]) * 2).toBeCloseTo(Number(rows[8]?.[0]), 9);
    expect(rows[1]?.[7]).toBe('choked');
  });

  it('shows a charge that stops short up to where it stops', () => {
    const rows = curve(['Charge as', 'vapour']);
    expect(rows.at(-1)?.[7]).toBe('stopped: the pressures have met');
    expect(rows.at(-1)?.[1]).toBeLessThan(0.25);
  });

  it('is what CHARGE.TIME tells of a charge that stops short, each in its own words', () => {
    const told = (...rows: Cell[][]): string => {
      const outcome = minutes('R-134a', 2, 'core in', ...rows);
      if (outcome.ok) throw new Error('it did not stop');
      return outcome.message;
    };
    for (const [rows, state, cause, remedy] of [
      [
        [['Charge as', 'vapour']],
        'stopped: the pressures have met',
        'the pressures of cylinder and system have met',
        'Warm the cylinder',
      ],
      [
        [['Cylinder charge', 2.02]],
        'stopped: no liquid left in the cylinder',
        'the cylinder has no liquid left',
        'Charge the rest from another cylinder',
      ],
    ] as const) {
      const given = rows.map((row) => [...row]);
      const last = curve(...given).at(-1) ?? [];
      expect(last[7]).toBe(state);
      const words = told(...given);
      expect(words).toContain(cause);
      expect(words).toContain(remedy);
      const [, kilograms, time, bar] = /only ([\d.]+) kg .* after ([\d.]+) min .*, at ([\d.]+) bar/i.exec(words) ?? [];
      expect(Number(kilograms) / Number(last[1])).toBeCloseTo(1, 1);
      expect(Number(time) / Number(last[0])).toBeCloseTo(1, 1);
      // the column is in kPa
      expect((100 * Number(bar)) / Number(last[3])).toBeCloseTo(1, 1);
    }
  });

  it('has no temperature of an empty system, and frost where the cylinder is below freezing and nowhere else', () => {
    const rows = curve(['Charge as', 'vapour'], ['Cylinder charge', 2.1], ['Ambient', 3], ['Heat', 100]).slice(1);
    expect(rows[0]?.[6]).toBe('');
    for (const row of rows.slice(1)) expect(row[6]).toEqual(expect.any(Number));
    for (const row of rows) expect(row[8]).toBe(Number(row[4]) < 0 ? 'frost' : '');
    expect(rows.map((row) => row[8])).toContain('');
    expect(curve().map((row) => row[7])).toContain('choked');
    expect(curve(['Heat', 100]).map((row) => row[7])).toContain('filling');
  });

  it('marks frost on a cylinder that boils below freezing', () => {
    const cold = curve(['Charge as', 'vapour'], ['Cylinder charge', 2.1], ['Ambient', 3], ['Heat', 100]);
    expect(cold.at(-1)?.[8]).toBe('frost');
  });

  it('tells pounds, psi and Fahrenheit where inch units are wanted', () => {
    expect(curve(['Report units', 'inch'])[0]).toEqual([
      'Time (min)',
      'In the system (lb)',
      'Rate (lb/min)',
      'Cylinder pressure (psia)',
      'Cylinder temperature (F)',
      'System pressure (psia)',
      'System temperature (F)',
      'State',
      'Cylinder',
    ]);
  });
});
