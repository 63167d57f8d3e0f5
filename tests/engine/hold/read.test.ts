import { describe, expect, it } from 'vitest';
import { type HoldReading, resolutionOf } from '../../../src/engine/hold/prepare.ts';
import { readHold } from '../../../src/engine/hold/read.ts';
import { logOf, MICRON, normal, seeded } from './logs.ts';

/** Vapour pressure of water at 20 C. Source: IAPWS-95, row PL-06 of the reference file. */
const SATURATION = 2339.32;
const SETTINGS = { volume: 0.02, saturation: SATURATION };

type Law = (minutes: number) => number;
const between = (random: () => number, low: number, high: number): number => low * (high / low) ** random();

/**
 * Invented systems, in micron and minutes for a log of so many minutes. Each shows its cause within the log, as a test
 * on site that is long enough does.
 */
const MAKERS: Readonly<Record<string, (random: () => number, length: number) => Law>> = {
  tight: (random) => {
    const start = between(random, 100, 600);
    return () => start;
  },
  leak: (random, length) => {
    const start = between(random, 100, 600);
    const rise = between(random, 1, 8) * start;
    return (t) => start + (rise * t) / length;
  },
  moisture: (random, length) => {
    const start = between(random, 100, 600);
    const end = start + between(random, 500, 4000);
    const tau = length * between(random, 0.1, 0.4);
    return (t) => start + (end - start) * (1 - Math.exp(-t / tau));
  },
  outgassing: (random, length) => {
    const start = between(random, 100, 600);
    const size = between(random, 100, 1000);
    const t0 = length * between(random, 0.02, 0.2);
    return (t) => start + size * Math.log1p(t / t0);
  },
};
const EACH = 60;

describe('a confusion table of simulated logs, 20 readings with 1 % noise on a gauge of one micron', () => {
  for (const minutes of [20, 30, 60, 120]) {
    it(`has 95 % right and never one wrong in fifty over ${minutes} minutes`, () => {
      let right = 0;
      let wrong = 0;
      for (const [index, [cause, make]] of Object.entries(MAKERS).entries()) {
        const random = seeded(1000 * index + minutes);
        let ofCause = 0;
        for (let i = 0; i < EACH; i++) {
          const verdict = readHold(logOf(make(random, minutes), { minutes, noise: 0.01, random }), SETTINGS);
          if (verdict.cause === cause) ofCause++;
          else if (verdict.cause !== undefined) wrong++;
        }
        expect(ofCause / EACH, `${cause} over ${minutes} min`).toBeGreaterThan(0.9);
        right += ofCause;
      }
      expect(right / (EACH * 4)).toBeGreaterThanOrEqual(0.95);
      expect(wrong / (EACH * 4)).toBeLessThan(0.02);
    });
  }

  it('tells nothing rather than something wrong where the log is too short for its cause', () => {
    const hard: Readonly<Record<string, (random: () => number) => Law>> = {
      leak: (random) => {
        const start = between(random, 200, 600);
        const rise = start * between(random, 0.05, 0.2);
        return (t) => start + (rise * t) / 10;
      },
      moisture: (random) => {
        const tau = between(random, 10, 40);
        return (t) => 300 + 2000 * (1 - Math.exp(-t / tau));
      },
      outgassing: (random) => {
        const t0 = between(random, 3, 15);
        return (t) => 300 + 300 * Math.log1p(t / t0);
      },
    };
    let wrong = 0;
    let open = 0;
    for (const [cause, make] of Object.entries(hard)) {
      const random = seeded(cause.length);
      for (let i = 0; i < EACH; i++) {
        const verdict = readHold(logOf(make(random), { minutes: 10, noise: 0.01, random }), SETTINGS);
        if (verdict.cause === undefined) open++;
        else if (verdict.cause !== cause) wrong++;
      }
    }
    expect(wrong / (3 * EACH)).toBeLessThan(0.03);
    expect(open).toBeGreaterThan(EACH);
  });
});

describe('slow moisture on its way to the saturation pressure', () => {
  // rises at first as a leak does: time constants of one to five hours
  const slowLaw = (random: () => number): Law => {
    const start = between(random, 100, 600);
    const end = SATURATION / MICRON;
    const tau = between(random, 60, 300);
    return (t) => end - (end - start) * Math.exp(-t / tau);
  };

  it('is hardly ever taken for anything else, however short the log', () => {
    let wrong = 0;
    const random = seeded(77);
    const lengths = [10, 15, 20, 30, 60];
    for (const minutes of lengths)
      for (let i = 0; i < 40; i++) {
        const { cause } = readHold(logOf(slowLaw(random), { minutes, noise: 0.01, random }), SETTINGS);
        if (cause !== undefined && cause !== 'moisture') wrong++;
      }
    // a verdict promises 95 %
    expect(wrong / (40 * lengths.length)).toBeLessThan(0.05);
  });

  it('stays a rival of a fast straight rise, and the words name both', () => {
    const law: Law = (t) => 300 + 60 * t;
    const verdict = readHold(logOf(law, { minutes: 15, noise: 0.01, random: seeded(4) }), SETTINGS);
    expect(verdict).toMatchObject({ cause: undefined, doubt: 'alike' });
    expect(verdict.weights.slice(0, 2).map(([cause]) => cause)).toEqual(expect.arrayContaining(['leak', 'moisture']));
    // and an hour of it is a leak
    expect(readHold(logOf(law, { minutes: 60, noise: 0.01, random: seeded(4) }), SETTINGS).cause).toBe('leak');
  });

  it('is told in a temperature that swings by two kelvin, where that is logged', () => {
    const random = seeded(8);
    let right = 0;
    for (let i = 0; i < 20; i++) {
      const tau = between(random, 5, 15);
      const log = logOf((t) => (SATURATION / MICRON) * (1 - 0.98 * Math.exp(-t / tau)), {
        minutes: 60,
        noise: 0.01,
        random,
      });
      const warm = log.map((reading, k) => {
        const temperature = 293.15 + 2 * Math.sin((2 * Math.PI * k) / 19);
        return { ...reading, pressure: (reading.pressure * temperature) / 293.15, temperature };
      });
      if (readHold(warm, SETTINGS).cause === 'moisture') right++;
    }
    expect(right).toBeGreaterThanOrEqual(19);
  });
});

describe('noise that is the same at every reading', () => {
  it('makes no leak with moisture out of a leak', () => {
    const random = seeded(21);
    const deviate = normal(random);
    let right = 0;
    let wrong = 0;
    for (let i = 0; i < 40; i++) {
      const start = between(random, 15, 60);
      const rise = start * between(random, 1, 8);
      const log = Array.from({ length: 20 }, (_, k) => ({
        time: 180 * k,
        pressure: Math.max(start + (rise * k) / 19 + 0.5 * deviate(), 0),
      }));
      const { cause } = readHold(log, SETTINGS);
      if (cause === 'leak') right++;
      else if (cause !== undefined) wrong++;
    }
    expect(right).toBeGreaterThanOrEqual(36);
    expect(wrong).toBeLessThanOrEqual(1);
  });
});

describe('a gauge with a known step', () => {
  const flat = (minutes: number): HoldReading[] =>
    Array.from({ length: 12 }, (_, i) => ({ time: (60 * minutes * i) / 11, pressure: 40 }));

  it('hides what matters in a short log, and says how long it takes', () => {
    const coarse = readHold(flat(20), { ...SETTINGS, resolution: 10 });
    expect(coarse).toMatchObject({ cause: undefined, doubt: 'resolution' });
    // 10 Pa at 100 micron (13.3322 Pa) an hour take 45 minutes, by hand; 20 of them are there
    expect((coarse.moreTime ?? 0) / 60).toBeCloseTo(25, 1);
    expect(readHold(flat(60), { ...SETTINGS, resolution: 10 }).cause).toBe('tight');
    expect(readHold(flat(20), SETTINGS).cause).toBe('tight');
  });

  it('hides a rise of one step as well', () => {
    const one = flat(20).map((reading, i) => (i > 7 ? { ...reading, pressure: 50 } : reading));
    expect(readHold(one, { ...SETTINGS, resolution: 10 }).doubt).toBe('resolution');
  });

  it('gives no verdict of a bend that lies within its steps', () => {
    const log = logOf((t) => 300 + 150 * (1 - Math.exp(-t / 8))).map(({ time, pressure }) => ({
      time,
      pressure: Math.round(pressure / (100 * MICRON)) * 100 * MICRON,
    }));
    const { cause } = readHold(log, { ...SETTINGS, resolution: 100 * MICRON });
    expect([undefined, 'moisture']).toContain(cause);
  });
});

describe('a hold test', () => {
  it('gives the leak rate V dp/dt of a straight rise', () => {
    const { cause, rate, rise, probability } = readHold(
      logOf((t) => 300 + 20 * t),
      SETTINGS,
    );
    expect(cause).toBe('leak');
    // 20 micron a minute in 20 L, by hand
    expect(rise).toBeCloseTo((20 * MICRON) / 60, 3);
    expect(rate / ((0.02 * 20 * MICRON) / 60)).toBeCloseTo(1, 2);
    expect(probability).toBeGreaterThan(0.95);
  });

  it('gives a larger rate for a larger leak, and one in proportion to the volume', () => {
    const rates = [10, 20, 40, 80].map(
      (a) =>
        readHold(
          logOf((t) => 200 + a * t),
          SETTINGS,
        ).rate,
    );
    rates.slice(1).forEach((rate, i) => {
      expect(rate).toBeGreaterThan(rates[i] ?? 0);
    });
    const log = logOf((t) => 200 + 40 * t);
    expect(readHold(log, { ...SETTINGS, volume: 0.2 }).rate / readHold(log, SETTINGS).rate).toBeCloseTo(10, 9);
  });

  it('finds the plateau and the time constant of moisture', () => {
    const { cause, level, constant } = readHold(
      logOf((t) => 300 + 1500 * (1 - Math.exp(-t / 6))),
      SETTINGS,
    );
    expect(cause).toBe('moisture');
    expect((level ?? 0) / (1800 * MICRON)).toBeCloseTo(1, 2);
    expect((constant ?? 0) / 360).toBeCloseTo(1, 1);
  });

  it('knows moisture that heads for the saturation pressure before it levels off', () => {
    const end = SATURATION / MICRON;
    const { cause, level } = readHold(
      logOf((t) => 300 + (end - 300) * (1 - Math.exp(-t / 25))),
      SETTINGS,
    );
    expect(cause).toBe('moisture');
    expect((level ?? 0) / SATURATION).toBeCloseTo(1, 1);
  });

  it('never takes a plateau above the saturation pressure for moisture', () => {
    const warm = (t: number): number => 2000 + 30000 * (1 - Math.exp(-t / 6));
    expect(readHold(logOf(warm), SETTINGS).cause).not.toBe('moisture');
    // at 40 C the saturation pressure is 7385 Pa (row PL-10)
    expect(readHold(logOf(warm), { ...SETTINGS, saturation: 7384.94 }).cause).toBe('moisture');
  });

  it('tells a leak with moisture by the straight rise that stays, and gives the rate of the leak', () => {
    const { cause, rise } = readHold(
      logOf((t) => 300 + 1500 * (1 - Math.exp(-t / 4)) + 60 * t, { minutes: 60, points: 40, noise: 0.002 }),
      SETTINGS,
    );
    expect(cause).toBe('leak and moisture');
    expect((rise * 60) / (60 * MICRON)).toBeCloseTo(1, 1);
  });

  it('bounds what a tight system may leak by what the noise can hide', () => {
    const quiet = readHold(
      logOf(() => 250, { noise: 0.002, random: seeded(3) }),
      SETTINGS,
    );
    const loud = readHold(
      logOf(() => 250, { noise: 0.01, random: seeded(3) }),
      SETTINGS,
    );
    expect([quiet.cause, loud.cause]).toEqual(['tight', 'tight']);
    expect(loud.rate).toBeGreaterThan(quiet.rate);
  });

  it('keeps its verdict with one bad reading wherever it stands, and names it', () => {
    const laws: readonly [string, Law][] = [
      ['tight', () => 300],
      ['leak', (t) => 300 + 30 * t],
      ['moisture', (t) => 300 + 1500 * (1 - Math.exp(-t / 6))],
    ];
    for (const [cause, law] of laws)
      for (const index of [0, 7, 12, 19]) {
        const log = logOf(law, { noise: 0.005, random: seeded(12) }).map((reading, i) =>
          i === index ? { ...reading, pressure: reading.pressure * 1.5 } : reading,
        );
        const verdict = readHold(log, SETTINGS);
        expect(verdict.cause, `${cause}, reading ${index}`).toBe(cause);
        expect(verdict.badTime).toBeCloseTo(log[index]?.time ?? -1, 6);
      }
  });

  it('takes logged temperature out: shut-in gas that warms by ten kelvin is tight', () => {
    const warming = (temperature: (i: number) => number): HoldReading[] =>
      Array.from({ length: 20 }, (_, i) => {
        const kelvin = temperature(i);
        return { time: 180 * i, pressure: Math.round(2000 * (kelvin / 293.15)) * MICRON, temperature: kelvin };
      });
    const log = warming((i) => 293.15 + (10 * i) / 19);
    expect(readHold(log, SETTINGS).cause).toBe('tight');
    const blind = log.map(({ time, pressure }) => ({ time, pressure }));
    expect(readHold(blind, SETTINGS).cause).not.toBe('tight');
    const sparse = log.map(({ temperature, ...rest }, i) =>
      i % 6 === 1 || temperature === undefined ? { ...rest, temperature: 293.15 + (10 * i) / 19 } : rest,
    );
    expect(readHold(sparse, SETTINGS).doubt).not.toBe('falling');
  });

  it('sees the steps of a coarse gauge and does not make shapes of them', () => {
    const coarse = [100, 100, 100, 110, 110, 110, 110, 100, 110, 110].map((micron) => micron * MICRON);
    expect(resolutionOf(coarse) / (10 * MICRON)).toBeCloseTo(1, 9);
    expect(resolutionOf([1, 2, 3, 4].map((micron) => micron * 100 * MICRON))).toBe(MICRON);
    const log = coarse.map((pressure, i) => ({ time: 360 * i, pressure }));
    expect(['tight', undefined]).toContain(readHold(log, SETTINGS).cause);
  });

  it("can't tell from few readings or a short log, and says how much longer", () => {
    const few = readHold(
      logOf((t) => 300 + 20 * t, { points: 4 }),
      SETTINGS,
    );
    expect(few).toMatchObject({ cause: undefined, doubt: 'few' });
    expect(few.moreTime).toBeGreaterThan(0);
    const short = readHold(
      logOf((t) => 300 + 20 * t, { minutes: 2 }),
      SETTINGS,
    );
    expect(short).toMatchObject({ cause: undefined, doubt: 'short' });
    expect(short.moreTime).toBeCloseTo(180, 6);
  });

  it('is settled by the further readings that it asks for', () => {
    const law: Law = (t) => 300 + 500 * (1 - Math.exp(-t / 15));
    const open = readHold(logOf(law, { minutes: 8, points: 9, noise: 0.01, random: seeded(5) }), SETTINGS);
    expect(open.doubt).toBe('alike');
    const more = (open.moreTime ?? 0) / 60;
    expect(more).toBeGreaterThan(0);
    const minutes = 1.5 * (8 + more);
    const longer = logOf(law, { minutes, points: Math.round(minutes) + 1, noise: 0.01, random: seeded(6) });
    expect(readHold(longer, SETTINGS).cause).toBe('moisture');
  });

  it('gives no verdict on a pressure that falls or speeds up', () => {
    expect(
      readHold(
        logOf((t) => 600 - 10 * t),
        SETTINGS,
      ).doubt,
    ).toBe('falling');
    expect(
      readHold(
        logOf((t) => 300 + t * t),
        SETTINGS,
      ).doubt,
    ).toBe('speeding up');
  });

  it('reads a log of ten thousand rows as it reads a thin one', () => {
    const long = logOf((t) => 300 + 20 * t, { points: 10_000, noise: 0.01, random: seeded(9) });
    const { cause, rise } = readHold(long, SETTINGS);
    expect(cause).toBe('leak');
    expect((rise * 60) / (20 * MICRON)).toBeCloseTo(1, 1);
  });
});
