import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Fault } from '../../src/faults/issue.ts';
import { libraryPart, libraryParts } from '../../src/tables/library/parts.ts';
import { numberIn, practiceRow } from './practice-rows.ts';

describe('the parts library', () => {
  it('has each name once and finds every part by it, however it is spelled', () => {
    expect(new Set(libraryParts.map(({ name }) => name)).size).toBe(libraryParts.length);
    fc.assert(
      fc.property(fc.constantFrom(...libraryParts), (part) => {
        expect(libraryPart(part.name)).toBe(part);
        expect(libraryPart(`  ${part.name.toUpperCase()} `)).toBe(part);
        expect(libraryPart(part.name.replaceAll(' ', '  '))).toBe(part);
      }),
    );
  });

  it.each([
    ['Hose 1/4" × 5 ft', 'hose 1/4 in x 5 ft'],
    ['hose 1/4 inch by 5 feet', 'hose 1/4 in x 5 ft'],
    ['PUMP 4 CFM', 'pump 4 cfm'],
    ['core, fitted', 'core fitted'],
  ])('%s is %s', (written, name) => expect(libraryPart(written).name).toBe(name));

  it('refuses a part that it does not hold, with the names that it holds', () => {
    for (const name of ['hose 7/8 in', '', 'constructor', '__proto__']) {
      expect(() => libraryPart(name)).toThrow(Fault);
      try {
        libraryPart(name);
      } catch (error) {
        expect(error).toHaveProperty('issue.known', expect.arrayContaining(['pump 4 cfm', 'hose 1/2 in x 3 ft']));
      }
    }
  });

  it.each([
    ...[2, 3, 4, 5, 6, 8, 10, 12].map((rating) => `pump ${rating} cfm`),
    ...['1/4', '3/8', '1/2'].map((size) => `port ${size} in flare`),
    ...['1/4', '3/8', '1/2', '3/4'].flatMap((size) =>
      ['3 ft', '5 ft', '6 ft', '0.9 m', '1.5 m', '1.8 m'].map((length) => `hose ${size} in x ${length}`),
    ),
    'depressor 1/4 in',
    'core fitted',
    'core removed',
    'manifold two-way 1/4 in',
    'manifold four-way 3/8 in',
    'core-removal valve 1/4 in',
    'ball valve 1/4 in',
    'ball valve 1/2 in',
    'end 1/4 in on 1/2 in hose',
  ])('holds %s', (name) => expect(libraryPart(name).name).toBe(name));

  it('says for each part what its dimensions rest on', () => {
    for (const part of libraryParts) {
      expect(['standard', 'common practice', 'from memory', 'fitted']).toContain(part.basis);
      expect(part.note.length).toBeGreaterThan(10);
    }
  });

  it('gives a pump its speed and ultimate pressure, and every other part a bore', () => {
    for (const part of libraryParts) {
      if (part.kind === 'pump') {
        expect(part.speed).toBeGreaterThan(0);
        expect(part.ultimate).toBeGreaterThan(0);
      } else {
        expect(part.bore).toBeGreaterThan(0);
        expect(part.bore ?? 0).toBeLessThan(0.03);
        expect(part.length ?? 0).toBeGreaterThanOrEqual(0);
      }
    }
  });

  // 1 cfm = 0.3048^3/60 m3/s = 0.471947 L/s, by the exact foot
  it('rates a 4 cfm pump at 1.8878 L/s', () => {
    expect(libraryPart('pump 4 cfm').speed).toBeCloseTo(1.8878e-3, 7);
  });

  it('keeps pumps within the ultimate pressure and rating of service pumps', () => {
    const [low, high] = numberIn(practiceRow('PU-01'), /([\d.]+) to ([\d.]+) Pa/);
    const [least, most] = numberIn(practiceRow('PU-07'), /([\d.]+) to ([\d.]+)/);
    for (const pump of libraryParts.filter(({ kind }) => kind === 'pump')) {
      expect(pump.ultimate).toBeGreaterThanOrEqual(low);
      expect(pump.ultimate).toBeLessThanOrEqual(high);
      const cfm = (pump.speed ?? 0) / (0.3048 ** 3 / 60);
      expect(cfm).toBeGreaterThan(least - 1e-9);
      expect(cfm).toBeLessThan(most + 1e-9);
    }
  });
});
