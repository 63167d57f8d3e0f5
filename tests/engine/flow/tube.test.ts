import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chokedConstant } from '../../../src/engine/flow/nozzle.ts';
import { prepareTube } from '../../../src/engine/flow/tube.ts';
import { gasState } from '../../../src/engine/gas/gas.ts';
import { bruteMarch, bruteUpstream } from './brute-force.ts';

const air = gasState('air', 293.15);
const rt = air.specificGasConstant * air.temperature;
const brute = { viscosity: air.viscosity, rt };
const hose = (bore: number, length: number, loss = 1.5, roughness = 0) =>
  ({ kind: 'tube', bore, length, loss, roughness }) as const;

/** Even in the logarithm. */
const between = (low: number, high: number): fc.Arbitrary<number> =>
  fc.double({ min: Math.log(low), max: Math.log(high), noNaN: true }).map(Math.exp);
const bores = between(2e-4, 0.1);
/** in radii */
const lengths = between(0.05, 4000);
const pressures = between(1e-4, 1e6);
const ratios = fc.double({ min: 0, max: 0.999, noNaN: true });

describe('a tube against a second implementation by small steps', () => {
  const cases = [
    ['small hose', hose(0.00476, 1.5)],
    ['wide hose', hose(0.0095, 1.5)],
    ['rough pipe', hose(0.02, 5, 3, 5e-5)],
    ['seat of a core', hose(0.002, 0.004)],
    ['disc', hose(0.003, 0.0003)],
    ['without loss', hose(0.004, 0.1, 0)],
  ] as const;

  it.each(cases)('agrees within 1e-4 from molecular to choked flow: %s', (_, tube) => {
    const ready = prepareTube(tube, air);
    for (const p of [1e-4, 1e-2, 1, 10, 66, 500, 5e3, 1e5, 1e6])
      for (const ratio of [0, 0.3, 0.9]) {
        const q = ready.throughput(p, ratio * p);
        const theirs = bruteUpstream(tube, brute, q, ratio * p);
        expect(Math.abs(theirs / p - 1), `${p} Pa, ratio ${ratio}`).toBeLessThan(1e-4);
      }
  });

  it('agrees with a march along the tube where the exit is not choked, in the pressure difference', () => {
    for (const [, tube] of cases) {
      const ready = prepareTube(tube, air);
      for (const p of [1e-2, 5, 66, 1e3, 1e5]) {
        const q = ready.throughput(p, 0.9 * p);
        const theirs = bruteMarch(tube, brute, q, 0.9 * p);
        expect(Math.abs((theirs - 0.9 * p) / (0.1 * p) - 1), `${tube.bore} ${p}`).toBeLessThan(1e-4);
      }
    }
  });

  it('agrees within 1e-6 where the steps are fine', () => {
    const tube = hose(0.00476, 1.5);
    const ready = prepareTube(tube, air);
    for (const p of [1, 66, 2000]) {
      const q = ready.throughput(p, 0.5 * p);
      expect(Math.abs(bruteMarch(tube, brute, q, 0.5 * p, 40_000) / p - 1)).toBeLessThan(1e-6);
    }
  });
});

describe('a tube obeys the laws of the trade', () => {
  it('gives back the pressure that drove the flow', () => {
    fc.assert(
      fc.property(bores, lengths, pressures, ratios, (bore, l, p, ratio) => {
        const ready = prepareTube(hose(bore, (l * bore) / 2), air);
        const back = ready.upstreamPressure(ready.throughput(p, ratio * p), ratio * p);
        expect(Math.abs(back / p - 1)).toBeLessThan(1e-8);
      }),
    );
  });

  it('a larger bore never lowers the flow', () => {
    fc.assert(
      fc.property(bores, between(1e-4, 20), pressures, ratios, between(1, 3), (bore, length, p, ratio, wider) => {
        const flow = (b: number): number => prepareTube(hose(b, length), air).throughput(p, ratio * p);
        expect(flow(bore * wider)).toBeGreaterThanOrEqual(flow(bore) * (1 - 1e-9));
      }),
    );
  });

  it('a longer tube never raises the flow', () => {
    fc.assert(
      fc.property(bores, lengths, pressures, ratios, between(1, 5), (bore, l, p, ratio, longer) => {
        const flow = (length: number): number => prepareTube(hose(bore, length), air).throughput(p, ratio * p);
        const length = (l * bore) / 2;
        expect(flow(length * longer)).toBeLessThanOrEqual(flow(length) * (1 + 1e-6));
      }),
    );
  });

  it('more flow needs more pressure, and a higher pressure behind it never lowers the pressure in front', () => {
    fc.assert(
      fc.property(bores, lengths, pressures, ratios, between(1.001, 3), (bore, l, p, ratio, more) => {
        const ready = prepareTube(hose(bore, (l * bore) / 2), air);
        const down = ratio * p;
        const q = ready.throughput(p, down);
        expect(ready.upstreamPressure(q * more, down)).toBeGreaterThan(p * (1 - 1e-9));
        expect(ready.upstreamPressure(q, down * more)).toBeGreaterThanOrEqual(p * (1 - 1e-9));
      }),
    );
  });

  it('passes nothing between equal pressures', () => {
    fc.assert(
      fc.property(bores, lengths, pressures, (bore, l, p) => {
        const ready = prepareTube(hose(bore, (l * bore) / 2), air);
        expect(ready.throughput(p, p)).toBe(0);
        expect(ready.upstreamPressure(0, p)).toBe(p);
      }),
    );
  });

  it('never passes more than an ideal nozzle or, rarefied, than effusion', () => {
    const nozzle = chokedConstant(air.heatCapacityRatio);
    fc.assert(
      fc.property(bores, between(1e-6, 4000), pressures, (bore, l, p) => {
        const area = (Math.PI / 4) * bore ** 2;
        const q = prepareTube(hose(bore, (l * bore) / 2), air).throughput(p, 0);
        expect(q).toBeLessThanOrEqual(nozzle * area * p * Math.sqrt(rt));
      }),
    );
  });

  it('joins its regimes without a step: flow over pressure changes slowly with pressure', () => {
    for (const tube of [hose(0.00476, 1.5), hose(0.0095, 1.5), hose(0.002, 0.004)]) {
      const ready = prepareTube(tube, air);
      let before = ready.throughput(1e-4, 0) / 1e-4;
      for (let p = 1e-4 * 1.01; p < 1e6; p *= 1.01) {
        const conductance = ready.throughput(p, 0) / p;
        // one per cent of pressure, at most one per cent of conductance (viscous flow: C ~ p)
        expect(Math.abs(conductance / before - 1), `${p} Pa`).toBeLessThan(0.0125);
        before = conductance;
      }
    }
  });

  it('is viscous and laminar by Poiseuille where a long tube is full of gas', () => {
    // Q = pi D^4 (p1^2 - p2^2)/(256 mu L), within 1 % for inertia, slip and ends
    const [bore, length] = [0.002, 20];
    const q = prepareTube(hose(bore, length), air).throughput(20_000, 10_000);
    const theirs = (Math.PI * bore ** 4 * (20_000 ** 2 - 10_000 ** 2)) / (256 * air.viscosity * length);
    expect(Math.abs(q / theirs - 1)).toBeLessThan(0.01);
  });

  it('takes gases by their own molar mass: helium leaves a molecular hose 2.69 times as fast as air', () => {
    const flow = (name: string): number => prepareTube(hose(0.00476, 1.5), gasState(name, 293.15)).throughput(1e-5, 0);
    expect(flow('helium') / flow('air')).toBeCloseTo(Math.sqrt(28.9655 / 4.0026), 3);
  });

  it('stays a number at the ends of what can be asked', () => {
    for (const [bore, length] of [
      [1e-6, 1e5],
      [2, 0],
      [2, 1e5],
      [1e-6, 0],
    ] as const)
      for (const p of [1e-12, 1e-9, 1, 1e7]) {
        const q = prepareTube(hose(bore, length), air).throughput(p, 0);
        expect(Number.isFinite(q) && q > 0, `${bore} ${length} ${p}`).toBe(true);
      }
  });
});

describe('a tube without a pressure difference', () => {
  it('passes nothing without a pressure difference and nothing backwards', () => {
    const ready = prepareTube(hose(0.0048, 1.5), air);
    for (const p of [1e-3, 60, 1e5]) {
      expect(ready.throughput(p, p)).toBe(0);
      expect(ready.throughput(p, 2 * p)).toBe(0);
      expect(ready.upstreamPressure(0, p)).toBe(p);
    }
    expect(ready.throughput(0, 0)).toBe(0);
  });
});
