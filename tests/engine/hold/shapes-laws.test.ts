import { describe, expect, it } from 'vitest';
import { type Cause, holdShapes, type Shape, SLOWEST, type Span, slowest } from '../../../src/engine/hold/shapes.ts';

/** Vapour pressure of water at 20 C. Source: IAPWS-95, row PL-06 of the reference file. */
const SATURATION = 2339.32;

const spanOf = (time: readonly number[], warmth = time.map(() => 1), wetness?: readonly number[]): Span => ({
  time: Float64Array.from(time),
  warmth: Float64Array.from(warmth),
  wetness: wetness === undefined ? undefined : Float64Array.from(wetness),
});

function shapeOf(name: string, drifting = false): Shape {
  const shape = holdShapes(SATURATION, false, drifting).find((each) => each.name === name);
  if (shape === undefined) throw new Error(`no shape "${name}"`);
  return shape;
}

/** Pressure of a shape at each time. */
function pressures(shape: Shape, weights: readonly number[], span: Span, constant: number): number[] {
  const known = shape.known?.(span, constant);
  const columns = shape.columns(span, constant);
  return Array.from(span.time, (_, i) =>
    columns.reduce((sum, column, j) => sum + (weights[j] ?? 0) * (column[i] ?? 0), known?.[i] ?? 0),
  );
}

const TAU = 700;
/** Each shape with the law that it stands for; pressures of some hundred Pa, times of an hour. */
const LAWS: readonly (readonly [string, Cause, number, readonly number[], (t: number) => number])[] = [
  ['level', 'tight', 1, [50], () => 50],
  ['straight rise', 'leak', 2, [50, 0.03], (t) => 50 + 0.03 * t],
  ['rise to the saturation pressure', 'moisture', 2, [50], (t) => 50 + (SATURATION - 50) * (1 - Math.exp(-t / TAU))],
  ['rise that levels off', 'moisture', 3, [50, 300], (t) => 50 + 300 * (1 - Math.exp(-t / TAU))],
  ['rise with the logarithm of time', 'outgassing', 3, [50, 40], (t) => 50 + 40 * Math.log((TAU + t) / TAU)],
  ['rise with the root of time', 'outgassing', 3, [50, 40], (t) => 50 + 40 * (Math.sqrt((TAU + t) / TAU) - 1)],
  [
    'rise that bends into a straight one',
    'leak and moisture',
    4,
    [50, 0.03, 300],
    (t) => 50 + 0.03 * t + 300 * (1 - Math.exp(-t / TAU)),
  ],
];
const TIMES = [0, 30, 200, 700, 1500, 3600];

describe('the shapes of a hold test', () => {
  for (const [name, cause, unknowns, weights, law] of LAWS) {
    it(`follow their law, which has as many unknowns as they say: ${name}`, () => {
      const shape = shapeOf(name);
      expect(shape).toMatchObject({ cause, unknowns });
      pressures(shape, weights, spanOf(TIMES), TAU).forEach((p, i) => {
        expect(p).toBeCloseTo(law(TIMES[i] ?? 0), 9);
      });
    });

    it(`have the rate at which the pressure rises: ${name}`, () => {
      const shape = shapeOf(name);
      for (const t of TIMES.slice(1)) {
        const [before = 0, after = 0] = pressures(shape, weights, spanOf([t - 0.5, t + 0.5]), TAU);
        expect(shape.rate(weights, TAU, t)).toBeCloseTo(after - before, 6);
      }
    });
  }

  it('follow the gas law where gas is shut in, and vapour over its water does not', () => {
    const cool = spanOf([0, 700], [1, 0.98]);
    const second = (name: string, weights: readonly number[]): number =>
      pressures(shapeOf(name), weights, cool, TAU)[1] ?? 0;
    const share = 1 - Math.exp(-1);
    expect(second('level', [50])).toBeCloseTo(50 * 0.98, 9);
    expect(second('straight rise', [50, 0.03])).toBeCloseTo(71 * 0.98, 9);
    expect(second('rise to the saturation pressure', [50])).toBeCloseTo(
      50 * 0.98 * Math.exp(-1) + SATURATION * share,
      9,
    );
    expect(second('rise that levels off', [50, 300])).toBeCloseTo(50 * 0.98 + 300 * share, 9);
    expect(second('rise with the logarithm of time', [50, 40])).toBeCloseTo((50 + 40 * Math.log(2)) * 0.98, 9);
    expect(second('rise with the root of time', [50, 40])).toBeCloseTo((50 + 40 * (Math.sqrt(2) - 1)) * 0.98, 9);
    expect(second('rise that bends into a straight one', [50, 0.03, 300])).toBeCloseTo(71 * 0.98 + 300 * share, 9);
  });

  it('let nothing shrink and no vapour stand more than 2 % above saturation', () => {
    const allows = (name: string, weights: readonly number[]): boolean => shapeOf(name).allows(weights);
    const top = 1.02 * SATURATION;
    expect([allows('level', [-5]), allows('level', [0])]).toEqual([true, true]);
    for (const name of ['straight rise', 'rise with the logarithm of time', 'rise with the root of time'])
      expect([-1e-9, 0, 1e-9].map((w) => allows(name, [50, w]))).toEqual([false, false, true]);
    expect([SATURATION - 1e-6, SATURATION, 3000].map((w) => allows('rise to the saturation pressure', [w]))).toEqual([
      true,
      false,
      false,
    ]);
    expect([-1, 0, 1, top, top + 1e-6].map((w) => allows('rise that levels off', [50, w]))).toEqual([
      false,
      false,
      true,
      true,
      false,
    ]);
    const both = 'rise that bends into a straight one';
    expect([-1, 0, 1, top, top + 1e-6].map((w) => allows(both, [50, 1, w]))).toEqual([false, false, true, true, false]);
    expect([-1, 0, 1].map((w) => allows(both, [50, w, 100]))).toEqual([false, false, true]);
  });
});

describe('the time constants that count as a cause', () => {
  // docs/method.md: moisture bends within the log or within half an hour, outgassing bends half as much
  const range = (name: string, slow = false, span = 3600, gap = 60): readonly number[] => {
    const shape = holdShapes(SATURATION, slow).find((each) => each.name === name);
    return (shape?.range(span, gap) ?? []).map((seconds) => Number(seconds.toPrecision(12)));
  };

  it('are bounded by the log, by half an hour, and by what two readings can show', () => {
    expect([SLOWEST, slowest(1200), slowest(1800), slowest(3600)]).toEqual([1800, 1800, 1800, 3600]);
    expect(range('level')).toEqual([]);
    expect(range('straight rise')).toEqual([]);
    for (const name of ['rise to the saturation pressure', 'rise that levels off']) {
      expect(range(name)).toEqual([120, 3600]);
      // readings far apart: half their distance; a short log: half an hour
      expect(range(name, false, 600, 100)).toEqual([50, 1800]);
    }
    expect(range('rise with the logarithm of time')).toEqual([60, 1800]);
    expect(range('rise with the logarithm of time', false, 600, 100)).toEqual([25, 900]);
    expect(range('rise with the root of time')).toEqual([0.036, 1800]);
    expect(range('rise that bends into a straight one')).toEqual([120, 1800]);
  });

  it('go on from there to twenty times as much where slow causes are asked for', () => {
    const slow = holdShapes(SATURATION, true, true);
    expect(new Set(slow.map(({ cause }) => cause))).toEqual(new Set(['moisture', 'outgassing']));
    expect(holdShapes(SATURATION, true)).toHaveLength(4);
    expect(slow).toHaveLength(8);
    expect(range('rise that levels off', true)).toEqual([3600, 72000]);
    expect(range('rise with the logarithm of time', true)).toEqual([1800, 36000]);
    expect(range('rise with the root of time', true, 600)).toEqual([900, 18000]);
  });
});

describe('moisture in a temperature that changes', () => {
  /** p' = (s(t) - p)/tau from 0 by small steps of the midpoint rule, s in straight lines between the readings. */
  function bySmallSteps(time: readonly number[], wetness: readonly number[], tau: number): number[] {
    let p = 0;
    return time.map((end, i) => {
      if (i === 0) return 0;
      const begin = time[i - 1] ?? 0;
      const steps = 20_000;
      const dt = (end - begin) / steps;
      const s = (k: number): number =>
        (wetness[i - 1] ?? 0) + ((wetness[i] ?? 0) - (wetness[i - 1] ?? 0)) * (k / steps);
      for (let k = 0; k < steps; k++) {
        const half = p + ((s(k) - p) / tau) * 0.5 * dt;
        p += ((s(k + 0.5) - half) / tau) * dt;
      }
      return p;
    });
  }
  const TIME = [0, 300, 900, 1000, 2500];
  const WETNESS = [1, 1.1, 0.9, 0.9, 1.05];
  const WARMTH = [1, 1.005, 0.995, 0.995, 1.003];
  const swinging = spanOf(TIME, WARMTH, WETNESS);

  it('is only looked for where the temperature is logged and changes', () => {
    expect(holdShapes(SATURATION)).toHaveLength(7);
    const all = holdShapes(SATURATION, false, true);
    expect(all).toHaveLength(11);
    expect(all.slice(7).map(({ cause, unknowns }) => [cause, unknowns])).toEqual([
      ['moisture', 2],
      ['moisture', 3],
      ['moisture', 2],
      ['moisture', 3],
    ]);
    for (const shape of all.slice(7)) expect(shape.range(3600, 60)).toEqual([120, 3600]);
  });

  it('follows the saturation pressure of each moment as small steps do', () => {
    const shares = bySmallSteps(TIME, WETNESS, TAU);
    const to = pressures(shapeOf('rise to the saturation pressure of each moment', true), [50], swinging, TAU);
    const level = pressures(
      shapeOf('rise to a level that follows the saturation pressure', true),
      [50, 300],
      swinging,
      TAU,
    );
    TIME.forEach((t, i) => {
      const share = shares[i] ?? 0;
      const warmth = WARMTH[i] ?? 1;
      expect(to[i]).toBeCloseTo(50 * warmth * Math.exp(-t / TAU) + SATURATION * share, 4);
      expect(level[i]).toBeCloseTo(50 * warmth + 300 * share, 4);
    });
  });

  it('comes to the plain rise where the saturation pressure stays', () => {
    const names = ['rise to the saturation pressure of each moment', 'rise to the saturation pressure as a gas'];
    const steady = spanOf(TIMES);
    const plain = pressures(shapeOf('rise to the saturation pressure'), [50], steady, TAU);
    for (const name of names)
      pressures(shapeOf(name, true), [50], steady, TAU).forEach((p, i) => {
        expect(p).toBeCloseTo(plain[i] ?? 0, 9);
      });
  });

  it('may expand as a gas far below saturation: all of it goes with the temperature', () => {
    const to = pressures(shapeOf('rise to the saturation pressure as a gas', true), [50], swinging, TAU);
    const level = pressures(shapeOf('rise that levels off as a gas', true), [50, 300], swinging, TAU);
    TIME.forEach((t, i) => {
      const kept = Math.exp(-t / TAU);
      expect(to[i]).toBeCloseTo((WARMTH[i] ?? 1) * (50 * kept + SATURATION * (1 - kept)), 9);
      expect(level[i]).toBeCloseTo((WARMTH[i] ?? 1) * (50 + 300 * (1 - kept)), 9);
    });
  });

  it('has the rate and the bounds of the plain rise', () => {
    for (const shape of holdShapes(SATURATION, false, true).slice(7)) {
      const weights = shape.known === undefined ? [50, 300] : [50];
      const rise = shape.known === undefined ? 300 : SATURATION - 50;
      for (const t of [0, 500, 3000])
        expect(shape.rate(weights, TAU, t)).toBeCloseTo((rise / TAU) * Math.exp(-t / TAU), 12);
      const top = 1.02 * SATURATION;
      const allowed =
        shape.known === undefined
          ? [0, 1e-9, top, top + 1e-6].map((w) => shape.allows([50, w]))
          : [SATURATION, SATURATION - 1e-6].map((w) => shape.allows([w]));
      expect(allowed).toEqual(shape.known === undefined ? [false, true, true, false] : [false, true]);
    }
  });
});
