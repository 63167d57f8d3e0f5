import { describe, expect, it } from 'vitest';
import { Fault } from '../../../src/faults/issue.ts';
import { verdictOf } from '../../../src/functions/evacuation/project-verdict.ts';
import type { Worked } from '../../../src/functions/evacuation/project-work.ts';

type Wet = NonNullable<Worked['wet']>;
const AMBIENT = 293.15;
const water = (some: Partial<Wet>): Wet =>
  ({ dry: 1200, toTarget: 0, coldest: 290, froze: false, overWaterLimit: false, ...some }) as Wet;
const line = (seconds: number): Worked['line'] => ({ seconds, node: 'west' }) as unknown as Worked['line'];
const worked = (some: Partial<Worked>): Worked =>
  ({ seconds: 600, wet: undefined, line: undefined, total: some.line?.seconds ?? 600, ...some }) as Worked;
const verdict = (some: Partial<Worked>, ambient = AMBIENT, units: 'metric' | 'inch' = 'metric'): string =>
  verdictOf(worked(some), ambient, units);

describe('what decides the time of a unit, in words', () => {
  it('is nothing beside the target in a dry unit, and the line only where its far end is later by more than 1 %', () => {
    expect(verdict({})).toBe('reaches target');
    expect(verdict({ line: line(605) })).toBe('reaches target');
    expect(verdict({ line: line(607) })).toBe('the line decides: "west" is at target after 10.1 min');
  });

  it('is the water: alone, with a pull after it that tells, or with a line that is later still', () => {
    expect(verdict({ wet: water({ dry: 1200 }), total: 1200 })).toBe('water decides: dry after 20 min');
    expect(verdict({ wet: water({ dry: 1200, toTarget: 10 }), total: 1210 })).toBe('water decides: dry after 20 min');
    expect(verdict({ wet: water({ dry: 1200, toTarget: 60 }), total: 1260 })).toBe(
      'dry after 20 min, at target after 21 min',
    );
    const wet = water({ dry: 1200, toTarget: 60 });
    expect(verdict({ wet, line: line(1270), total: 1270 })).toBe('dry after 20 min, at target after 21.2 min');
    expect(verdict({ wet, line: line(1275), total: 1275 })).toBe(
      'dry after 20 min; the line decides: "west" is at target after 21.3 min',
    );
  });

  it('tells ice with what to do: nitrogen in a warm room, warmth in the cold', () => {
    const wet = water({ froze: true, coldest: 273.15 - 12.4 });
    expect(verdict({ wet, total: 1200 })).toBe(
      'water decides: dry after 20 min; water froze, down to -12 °C: warm it or break with nitrogen',
    );
    expect(verdict({ wet, total: 1200 }, 268.15)).toBe(
      'water decides: dry after 20 min; all ice, down to -12 °C: warm it',
    );
    // -12.4 °C is 9.7 °F; the triple point of water is at 273.16 K
    expect(verdict({ wet, total: 1200 }, 273.17, 'inch')).toMatch(/; water froze, down to 10 °F: warm it or/);
    expect(verdict({ wet, total: 1200 }, 273.15)).toMatch(/; all ice, /);
    expect(verdict({ wet: water({ froze: true, coldest: 273 }), total: 1200 })).toContain('down to 0 °C');
  });

  it('tells a pump that takes in too much vapour', () => {
    expect(verdict({ wet: water({ overWaterLimit: true }), total: 1200 })).toBe(
      'water decides: dry after 20 min; pump’s water limit passed: open its gas ballast',
    );
    expect(verdict({ wet: water({ overWaterLimit: undefined } as never), total: 1200 })).not.toContain('limit');
  });

  it('is the fault where there is one, whatever else there is', () => {
    const total = new Fault({ kind: 'missing', argument: 'Heat' });
    expect(verdict({ wet: water({}), line: line(9000), total })).toMatch(/^Heat is blank/);
  });
});
