import { describe, expect, it } from 'vitest';
import { type Balance, heldEnthalpy, totalPressure, vapourPerPascal } from '../../../src/engine/breaks/contents.ts';
import { dryPull } from '../../../src/engine/breaks/dry.ts';
import { dryOutflow, type Outflow, wetOutflow } from '../../../src/engine/breaks/outflow.ts';
import { rigSurface } from '../../../src/engine/dry/rig-surface.ts';
import { gasState } from '../../../src/engine/gas/gas.ts';
import { prepareRig } from '../../../src/engine/rig/prepare.ts';
import { rigCurve } from '../../../src/engine/rig/sweep.ts';
import { expectWithin } from '../../references/assert.ts';
import { AIR, hose, pumpOf, rigOf } from '../rig/fakes.ts';
import { AMBIENT, AROUND, DRY, FREEZING, MELTING, PUMP, RV, SPEED, VOLUME } from './simple.ts';

const TIME = VOLUME / SPEED;
const nothing = (): Balance => ({ vapourOff: 0, heatIn: 0, enthalpyOff: 0, firstOff: 0, firstIn: 0 });

describe('a pull without water by a pump of one speed', () => {
  it('takes V/S ln(p0/p1), and all gases keep their ratio', () => {
    const balance = nothing();
    const end = dryPull(AROUND, PUMP, DRY, 110, 1e6, balance);
    // 4400 Pa down to 110 Pa: each gas to a fortieth
    expect(end).toMatchObject({ state: 'dry', water: 0, ice: 0, temperature: AMBIENT });
    expect(end?.time).toBeCloseTo(100 + TIME * Math.log(40), 9);
    expect(end?.first).toBeCloseTo(75, 9);
    expect(end?.fed).toBeCloseTo(25, 9);
    expect(end?.vapour).toBeCloseTo(10, 9);
    expect(balance.firstOff).toBeCloseTo((3000 - 75) * VOLUME, 9);
    expect(balance.vapourOff).toBeCloseTo(((400 - 10) * VOLUME) / (RV * AMBIENT), 12);
    expect([balance.firstIn, balance.heatIn, balance.enthalpyOff]).toEqual([0, 0, 0]);
  });

  it('is over where the pressure is there already, and where the time is over', () => {
    expect(dryPull(AROUND, PUMP, DRY, 4400, 1e6)).toBe(DRY);
    const stopped = dryPull(AROUND, PUMP, DRY, 110, 130);
    expect(stopped?.time).toBe(130);
    expect((stopped?.first ?? 0) / 3000).toBeCloseTo(Math.exp(-30 / TIME), 8);
    expect((stopped?.vapour ?? 0) / 400).toBeCloseTo(Math.exp(-30 / TIME), 8);
    // just in time
    const whole = TIME * Math.log(40);
    expect(totalPressure(dryPull(AROUND, PUMP, DRY, 110, 100 + whole) ?? DRY)).toBeCloseTo(110, 6);
  });

  it('counts the pressure above the ultimate one, where the time is over', () => {
    const pump = rigCurve(prepareRig(rigOf(pumpOf(SPEED, 20)), AIR));
    const stopped = dryPull(AROUND, dryOutflow(pump), DRY, 30, 150);
    expectWithin(totalPressure(stopped ?? DRY), 20 + 4380 * Math.exp(-50 / TIME), 1e-4, 'exponential fall');
  });

  for (const [name, load] of [
    ['leak', { leak: 0.2, outgassing: 0, exponent: 0 }],
    ['steady outgassing', { leak: 0, outgassing: 0.2, exponent: 0 }],
  ] as const)
    it(`with a ${name} comes down to Q/S by its exponential, and what comes in counts to the first gas`, () => {
      const around = { ...AROUND, load };
      const level = 0.2 / SPEED;
      const balance = nothing();
      const end = dryPull(around, PUMP, DRY, 300, 1e6, balance) ?? DRY;
      const t = TIME * Math.log((4400 - level) / (300 - level));
      const part = Math.exp(-t / TIME);
      expectWithin(end.time - 100, t, 1e-6, 'time');
      expectWithin(end.first, level + (3000 - level) * part, 1e-6, 'first gas');
      expectWithin(end.fed, 1000 * part, 1e-5, 'fed gas');
      expectWithin(end.vapour, 400 * part, 1e-5, 'vapour');
      expectWithin(balance.firstIn, 0.2 * t, 1e-6, 'came in');
      expectWithin(balance.firstOff, 3000 * VOLUME + 0.2 * t - end.first * VOLUME, 1e-6, 'went off');
      expectWithin(balance.vapourOff, ((400 - end.vapour) * VOLUME) / (RV * AMBIENT), 1e-9, 'vapour off');
      const stopped = dryPull(around, PUMP, DRY, 300, 120) ?? DRY;
      expect(stopped.time).toBe(120);
      expectWithin(totalPressure(stopped), level + (4400 - level) * Math.exp(-20 / TIME), 1e-6, 'stopped');
    });

  it('goes as fast as the mixture does, whose vapour a load thins', () => {
    const outflow: Outflow = {
      ...PUMP,
      throughput: (p, y) => SPEED * p * (1 + y),
      secondsPerVolume: (from, to, y) => Math.log(from / to) / (SPEED * (1 + y)),
    };
    const alone = dryPull(AROUND, outflow, DRY, 110, 1e6) ?? DRY;
    expect(alone.time - 100).toBeCloseTo((TIME * Math.log(40)) / (1 + 1 / 11), 9);
    // with a leak by small steps of the midpoint rule
    let [first, fed, vapour] = [3000, 1000, 400];
    const steps = 20_000;
    const dt = 40 / steps;
    const slopes = (a: number, b: number, c: number): [number, number, number] => {
      const rate = (1 + c / (a + b + c)) / TIME;
      return [0.2 / VOLUME - a * rate, -b * rate, -c * rate];
    };
    for (let i = 0; i < steps; i++) {
      const [a, b, c] = slopes(first, fed, vapour);
      const middle = slopes(first + 0.5 * dt * a, fed + 0.5 * dt * b, vapour + 0.5 * dt * c);
      first += dt * middle[0];
      fed += dt * middle[1];
      vapour += dt * middle[2];
    }
    const load = { leak: 0.2, outgassing: 0, exponent: 0 };
    const leaking = dryPull({ ...AROUND, load }, outflow, DRY, 201, 140) ?? DRY;
    expectWithin(leaking.first, first, 1e-5, 'first gas');
    expectWithin(leaking.fed, fed, 1e-5, 'fed gas');
    expectWithin(leaking.vapour, vapour, 1e-5, 'vapour');
  });

  it('with outgassing that falls counts its hour from the start of the plan', () => {
    // steps of Heun's rule of V p' = Q1 (1 h/t)^n - S p
    const load = { leak: 0.01, outgassing: 0.05, exponent: 0.7 };
    const inflow = (t: number): number => 0.01 + 0.05 * (3600 / t) ** 0.7;
    let p = 4400;
    const steps = 20_000;
    const dt = 60 / steps;
    for (let i = 0; i < steps; i++) {
      const t = 100 + i * dt;
      const slope = (inflow(t) - SPEED * p) / VOLUME;
      p += 0.5 * dt * (slope + (inflow(t + dt) - SPEED * (p + dt * slope)) / VOLUME);
    }
    const end = dryPull({ ...AROUND, load }, PUMP, DRY, 100, 160) ?? DRY;
    expectWithin(totalPressure(end), p, 1e-5, 'pressure after a minute');
  });
});

describe('what is in the system', () => {
  it('is the sum of its gases, and vapour by the gas law', () => {
    expect(totalPressure(DRY)).toBe(4400);
    expect(vapourPerPascal(AROUND)).toBeCloseTo(VOLUME / (RV * AMBIENT), 14);
  });

  it('holds heat counted from liquid and metal at the triple point', () => {
    const around = { ...AROUND, metal: 400 };
    expect(heldEnthalpy(around, { ...DRY, temperature: 283.16 })).toBeCloseTo(4000, 6);
    // a gram of ice is short of what melting takes
    expect(heldEnthalpy(around, FREEZING)).toBeCloseTo(-1e-3 * MELTING, 9);
    // 5 g of liquid 10 K above the triple point: 4.2 kJ/(kg K) there (IAPWS-95)
    const liquid = heldEnthalpy(AROUND, { ...FREEZING, state: 'liquid', ice: 0, temperature: 283.16 });
    expectWithin(liquid, 5e-3 * 42.0e3, 0.005, 'warm liquid');
  });
});

describe('how a rig pumps', () => {
  const rig = rigOf(pumpOf(SPEED, 5), [hose(6e-3, 1.5)]);
  const surface = rigSurface(rig, AIR, gasState('water vapour', AMBIENT));

  it('takes as long as the integral of dp/Q by small steps, in gas and in vapour', () => {
    const dry = dryOutflow(rigCurve(prepareRig(rig, AIR)));
    const wet = wetOutflow(surface);
    const cases = [
      [dry, 0, 1e5, 20],
      [wet, 0, 1e5, 20],
      [wet, 0.5, 1e5, 20],
      [wet, 1, 2000, 6],
      [wet, 0.3, 30, 29],
    ] as const;
    for (const [outflow, fraction, from, to] of cases) {
      const steps = 8000;
      const width = Math.log((from - 5) / (to - 5)) / steps;
      let sum = 0;
      for (let i = 0; i < steps; i++) {
        const excess = (to - 5) * Math.exp((i + 0.5) * width);
        sum += (excess * width) / outflow.throughput(5 + excess, fraction);
      }
      expectWithin(outflow.secondsPerVolume(from, to, fraction), sum, 2e-4, `from ${from} to ${to} Pa`);
    }
    expect(dry.vapourAtPump(1000, 0.5)).toBe(0);
  });

  it('has the vapour at a bare pump that the system has, and less behind a hose', () => {
    const bare = wetOutflow(rigSurface(rigOf(pumpOf(SPEED, 5)), AIR, gasState('water vapour', AMBIENT)));
    expectWithin(bare.vapourAtPump(1000, 0.4), 400, 1e-3, 'at a bare pump');
    const behind = wetOutflow(surface).vapourAtPump(1000, 0.4);
    // the pump draws S (p - p_u) of it
    expectWithin(behind, 0.4 * (5 + wetOutflow(surface).throughput(1000, 0.4) / SPEED), 1e-3, 'behind a hose');
    expect(behind).toBeLessThan(390);
  });
});
