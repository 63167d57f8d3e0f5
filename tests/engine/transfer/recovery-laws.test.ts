import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { refrigerantByName, refrigerantNames } from '../../../src/engine/refrigerant/by-name.ts';
import type { Machine, Rig, RigPart } from '../../../src/engine/rig/rig.ts';
import { recover } from '../../../src/engine/transfer/recovery.ts';
import { type RecoveryTask, recoveryGear } from '../../../src/engine/transfer/recovery-gear.ts';
import type { RecoveryMoment } from '../../../src/engine/transfer/recovery-stages.ts';
import { Fault } from '../../../src/faults/issue.ts';
import { integrateStiff } from '../../../src/numerics/rodas.ts';
import { core, hose } from '../rig/fakes.ts';

const ATMOSPHERE = 101325;
const MACHINE: Machine = { name: 'machine', displacement: 3 / 3600, ultimate: 2e4, efficiency: 0.8, approach: 0 };

function rigOf(parts: readonly RigPart[], machine: Partial<Machine> = {}): Rig {
  const whole = { ...MACHINE, ...machine };
  return { name: 'rig', pump: { name: 'machine', speed: whole.displacement, ultimate: 0 }, machine: whole, parts };
}

const NARROW = [hose(0.0048, 1.5), core(0.0016, 0.006)];
const TASK: RecoveryTask = { charge: 3, volume: 0.02, heat: 15, mode: 'vapour', level: ATMOSPHERE };

function timeOf(name: string, rig: Rig, ambient: number, task: Partial<RecoveryTask> = {}): number {
  return recover(recoveryGear(refrigerantByName(name), rig, ambient), { ...TASK, ...task }).time;
}

function issueOf(run: () => unknown): string {
  try {
    run();
  } catch (error) {
    if (error instanceof Fault) return error.issue.kind;
    throw error;
  }
  return 'none';
}

const refrigerant = fc.constantFrom('R-410A', 'R-134a', 'R-290', 'R-407C', 'R-32');
const mode = fc.constantFrom('vapour' as const, 'liquid' as const);
const FEW = { numRuns: 12 };
const ROUNDING = 1 + 1e-6;

describe('what lengthens and shortens a recovery', () => {
  it('a larger charge is never out sooner', () => {
    const charges = fc.double({ min: 0.3, max: 6, noNaN: true });
    fc.assert(
      fc.property(refrigerant, mode, charges, charges, (name, how, a, b) => {
        const gear = recoveryGear(refrigerantByName(name), rigOf(NARROW), 293.15);
        const [less, more] = [Math.min(a, b), Math.max(a, b)].map(
          (charge) => recover(gear, { ...TASK, mode: how, charge }).time,
        );
        expect(less).toBeLessThanOrEqual((more ?? 0) * ROUNDING);
      }),
      FEW,
    );
  });

  it('a wider core is never later', () => {
    const bores = fc.double({ min: 0.0008, max: 0.006, noNaN: true });
    fc.assert(
      fc.property(refrigerant, mode, bores, bores, (name, how, a, b) => {
        const [narrow, wide] = [Math.min(a, b), Math.max(a, b)].map((bore) =>
          timeOf(name, rigOf([hose(0.0048, 1.5), core(bore, 0.006)]), 293.15, { mode: how }),
        );
        expect(wide).toBeLessThanOrEqual((narrow ?? 0) * ROUNDING);
      }),
      FEW,
    );
  });

  it('a warmer day is never later, where liquid boils off as vapour', () => {
    const days = fc.double({ min: 275, max: 313, noNaN: true });
    const heats = fc.double({ min: 1, max: 300, noNaN: true });
    fc.assert(
      fc.property(refrigerant, heats, days, days, (name, heat, a, b) => {
        const [cold, warm] = [Math.min(a, b), Math.max(a, b)].map((day) =>
          timeOf(name, rigOf(NARROW), day, { heat, charge: 6 }),
        );
        expect(warm).toBeLessThanOrEqual((cold ?? 0) * ROUNDING);
      }),
      { numRuns: 24 },
    );
  });

  it('more heat, more metal and taking liquid first never take longer', () => {
    const base = timeOf('R-410A', rigOf(NARROW), 293.15);
    expect(timeOf('R-410A', rigOf(NARROW), 293.15, { heat: 40 })).toBeLessThan(base);
    expect(timeOf('R-410A', rigOf(NARROW), 293.15, { metal: 20_000 })).toBeLessThan(base);
    const liquid = timeOf('R-410A', rigOf(NARROW), 293.15, { mode: 'liquid' });
    expect(liquid).toBeLessThan(base);
    expect(timeOf('R-410A', rigOf(NARROW), 293.15, { mode: 'push-pull' })).toBeLessThan(base);
    expect(timeOf('R-410A', rigOf(NARROW, { liquidRate: 0.01 }), 293.15, { mode: 'liquid' })).toBeGreaterThan(liquid);
  });
});

describe('the balances of a recovery', () => {
  it('mass closes to a millionth and energy to a ten-thousandth, with carbon dioxide as well', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('R-410A', 'R-134a', 'R-407C', 'R-744'),
        fc.double({ min: 60, max: 300, noNaN: true }),
        fc.double({ min: 0.5, max: 9, noNaN: true }),
        (name, heat, charge) => {
          const gear = recoveryGear(refrigerantByName(name), rigOf(NARROW), 288.15);
          const { misses } = recover(gear, { ...TASK, heat, charge, metal: 2000 });
          expect(Math.abs(misses.mass)).toBeLessThan(1e-6);
          expect(Math.abs(misses.energy)).toBeLessThan(1e-4);
        },
      ),
      FEW,
    );
  });
});

describe('the last stretch', () => {
  it('takes as long by its closed form as by integration', () => {
    const gear = recoveryGear(refrigerantByName('R-134a'), rigOf(NARROW), 293.15);
    const { vapour, curve } = gear;
    const task = { ...TASK, charge: 0.5, level: 25_000 };
    const way: RecoveryMoment[] = [];
    const { time } = recover(gear, task, (moment) => way.push(moment));
    const start = way[0]?.pressure ?? 0;
    expect(way[0]?.state).toBe('vapour');
    const result = integrateStiff(
      (_t, y, out) => {
        const p = y[0] ?? 0;
        out[0] = -curve.flow(p) / (task.volume * vapour.densitySlope(p));
      },
      0,
      [start],
      1e6,
      { relative: 1e-9, absolute: 1e-6, events: [(_t, y) => (y[0] ?? 0) - task.level] },
    );
    expect(result.status).toBe('event');
    expect(time / result.t).toBeCloseTo(1, 5);
  });

  it('is the logarithm of a bare machine that draws nearly perfect gas', () => {
    // R-290 far from saturation: V/(S e) ln((p0 - pu)/(p1 - pu)) by hand, Z within 2 % of 1
    const gear = recoveryGear(refrigerantByName('R-290'), rigOf([]), 293.15);
    const { time } = recover(gear, { ...TASK, charge: 0.0368 * 2, level: 40_000 });
    const { vapour } = gear;
    const p0 = (0.0368 * 2) / 0.02 / vapour.density(1);
    const byHand = (0.02 / (MACHINE.displacement * 0.8)) * Math.log((p0 - 2e4) / (4e4 - 2e4));
    expect(time / byHand).toBeGreaterThan(0.97);
    expect(time / byHand).toBeLessThan(1.03);
  });

  it('is over at once where the vapour is below the level already', () => {
    const gear = recoveryGear(refrigerantByName('R-134a'), rigOf(NARROW), 293.15);
    const result = recover(gear, { ...TASK, charge: 0.01 });
    expect(result.time).toBe(0);
    expect(result.left).toBeCloseTo(0.01, 6);
  });
});

describe('recoveries that cannot be', () => {
  const gear = () => recoveryGear(refrigerantByName('R-410A'), rigOf(NARROW), 293.15);
  it('are faults: too much charge, a level too low, no heat, a day above the critical point, no machine', () => {
    expect(issueOf(() => recover(gear(), { ...TASK, charge: 30 }))).toBe('limit');
    expect(issueOf(() => recover(gear(), { ...TASK, level: 19_000 }))).toBe('out-of-reach');
    expect(issueOf(() => recover(gear(), { ...TASK, heat: 0 }))).toBe('no-solution');
    expect(issueOf(() => recoveryGear(refrigerantByName('R-744'), rigOf(NARROW), 305))).toBe('limit');
    expect(issueOf(() => recoveryGear(refrigerantByName('R-744'), rigOf(NARROW), 302))).toBe('model-range');
    const { name, pump, parts } = rigOf(NARROW);
    expect(issueOf(() => recoveryGear(refrigerantByName('R-410A'), { name, pump, parts }, 293))).toBe('wrong');
  });

  it('carbon dioxide drawn off faster than heat comes in freezes: a fault, not a time', () => {
    const cold = recoveryGear(refrigerantByName('R-744'), rigOf([hose(0.008, 1.5)]), 288.15);
    expect(issueOf(() => recover(cold, { ...TASK, charge: 6, heat: 5 }))).toBe('no-solution');
  });
});

it('the balance of energy closes where a strong machine cools the liquid below the table of its properties, too', () => {
  const gear = recoveryGear(refrigerantByName('R-22'), rigOf([], { displacement: 0.03, ultimate: 0 }), 253);
  for (const charge of [10.79, 10.89, 11.5]) {
    const { coldest, misses } = recover(gear, { charge, volume: 1, heat: 1, mode: 'vapour', level: 2e4 });
    expect(coldest).toBeLessThan(refrigerantByName('R-22').lowest);
    expect(Math.abs(misses.energy)).toBeLessThan(1e-6);
  }
});

describe('any machine, rig and charge', () => {
  const within = (min: number, max: number) =>
    fc.double({ min: Math.log(min), max: Math.log(max), noNaN: true }).map(Math.exp);
  it('gives a time with closed balances, or a fault in words', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...refrigerantNames),
        fc.double({ min: 253, max: 318, noNaN: true }),
        fc.record({
          displacement: within(1e-5, 3e-2),
          ultimate: fc.oneof(fc.constant(0), within(1e3, 6e4)),
          clearance: within(1e-3, 0.2),
        }),
        fc.constantFrom([], NARROW, [hose(0.0005, 30)], [core(0.0002, 0.006), hose(0.02, 1)]),
        fc.record({
          volume: within(1e-3, 1),
          filling: within(1, 1000),
          heat: fc.oneof(fc.constant(0), within(0.1, 500)),
          metal: fc.oneof(fc.constant(0), within(100, 1e6)),
          mode: fc.constantFrom('vapour' as const, 'liquid' as const, 'push-pull' as const),
          level: within(2e4, 3e5),
        }),
        fc.boolean(),
        (name, ambient, { clearance, ...machine }, parts, { filling, ...rest }, cleared) => {
          const whole = cleared ? { ...machine, clearance } : machine;
          const kind = issueOf(() => {
            const gear = recoveryGear(refrigerantByName(name), rigOf(parts, whole), ambient);
            const result = recover(gear, { ...rest, charge: filling * rest.volume });
            expect(result.time).toBeGreaterThanOrEqual(0);
            expect(Number.isFinite(result.time)).toBe(true);
            expect(result.left).toBeGreaterThan(0);
            expect(Math.abs(result.misses.mass)).toBeLessThan(1e-6);
            expect(Math.abs(result.misses.energy)).toBeLessThan(1e-4);
          });
          expect(['none', 'limit', 'model-range', 'out-of-reach', 'no-solution']).toContain(kind);
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe('the work of a recovery', () => {
  it('stays within some hundreds of moments, whatever the mode', () => {
    for (const mode of ['vapour', 'liquid', 'push-pull'] as const) {
      let moments = 0;
      recover(recoveryGear(refrigerantByName('R-410A'), rigOf(NARROW), 293.15), { ...TASK, mode }, () => {
        moments += 1;
      });
      expect(moments).toBeLessThan(500);
    }
  });
});
