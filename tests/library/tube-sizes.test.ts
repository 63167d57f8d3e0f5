import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { tubeBore, tubeSize, tubeSizes } from '../../src/tables/library/tube-sizes.ts';
import { issueOf } from '../issue-of.ts';

describe('a tube size is understood as people write it', () => {
  // ASTM B280 coil: 3/8 in OD, 0.032 in wall, so 0.311 in bore (tubes_copper TU-005, published)
  it.each([
    '3/8',
    '3/8 in',
    '3/8"',
    ' 3/8 inch ',
    '3/8″',
    '⅜',
    '0.375',
    '.375 in',
    0.375,
    '9.52 mm',
    '9.525 mm',
    '3/8 in OD',
  ])('%s is 3/8 in coil', (size) => {
    expect(tubeBore(size)).toBeCloseTo(0.311 * 0.0254, 9);
  });

  // 1 1/8 in OD, 0.050 in wall (TU-011, published)
  it.each(['1 1/8', '1 1/8 in', '1-1/8"', '1⅛', 1.125, '28.6 mm'])('%s is 1 1/8 in coil', (size) => {
    expect(tubeBore(size)).toBeCloseTo(1.025 * 0.0254, 9);
  });

  // 10 mm OD, 1 mm wall (TU-041, from memory)
  it.each(['10 mm', '10', 10, '10mm', '10.0 mm'])('%s is 10 mm tube by EN 12735-1', (size) => {
    expect(tubeSize(size)).toMatchObject({ standard: 'EN 12735-1', label: '10 mm' });
    expect(tubeBore(size)).toBeCloseTo(0.008, 12);
  });

  it('a metric size close to an inch size stays metric', () => {
    expect(tubeSize('54 mm')).toMatchObject({ label: '54 mm', standard: 'EN 12735-1' });
    expect(tubeSize('35 mm')).toMatchObject({ label: '35 mm' });
    expect(tubeSize('54 mm', 'EN')).toMatchObject({ label: '54 mm' });
  });

  it('the heavy 3/4 in coil has the thicker wall', () => {
    expect(tubeBore('3/4 in heavy')).toBeLessThan(tubeBore('3/4 in'));
    expect(tubeBore('3/4 heavy')).toBe(tubeBore('3/4 in heavy'));
  });

  it('every listed label finds its own row', () => {
    fc.assert(
      fc.property(fc.constantFrom(...tubeSizes), (tube) => {
        expect(tubeSize(tube.label, tube.standard)).toBe(tube);
      }),
    );
  });
});

describe('the standard', () => {
  it('is annealed coil where none is named, and drawn straight where coil has no such size', () => {
    expect(tubeSize('1/2').standard).toBe('ASTM B280 coil');
    expect(tubeSize('2 1/8 in').standard).toBe('ASTM B280 straight');
    expect(tubeSize('1 in').standard).toBe('EN 12735-1');
  });

  it.each([
    ['astm b280 coil', 'ASTM B280 coil'],
    ['B280 straight', 'ASTM B280 straight'],
    ['Drawn', 'ASTM B280 straight'],
    ['EN 12735', 'EN 12735-1'],
    ['en12735-1', 'EN 12735-1'],
    ['', 'ASTM B280 coil'],
  ] as const)('"%s" is matched loosely', (named, standard) => {
    expect(tubeSize('3/8', named).standard).toBe(standard);
  });

  it('is refused with the known ones when it is not known', () => {
    expect(issueOf(() => tubeBore('3/8', 'type Q'))).toEqual({
      kind: 'unknown',
      what: 'tube standard',
      value: 'type Q',
      known: ['ASTM B280 coil', 'ASTM B280 straight', 'EN 12735-1'],
    });
  });
});

describe('a size that is no size', () => {
  it.each(['7/16', '3/0', 'wide', '', '-3/8', '3/8 ft', '1e3', '__proto__', 99])(
    '%s is refused with the known sizes',
    (size) => {
      const issue = issueOf(() => tubeBore(size));
      expect(issue).toMatchObject({ kind: 'unknown', what: 'tube size' });
      expect(issue).toHaveProperty('known', expect.arrayContaining(['3/8 in', '10 mm']));
    },
  );

  it('lists the sizes of the named standard only', () => {
    expect(issueOf(() => tubeBore('10 mm', 'ASTM B280 coil'))).not.toHaveProperty(
      'known',
      expect.arrayContaining(['10 mm']),
    );
  });

  it('a number at or under zero is outside the limit, and NaN is no number', () => {
    expect(issueOf(() => tubeBore(0))).toMatchObject({ kind: 'limit', rule: 'above', limit: 0 });
    expect(issueOf(() => tubeBore(-1))).toMatchObject({ kind: 'limit', value: -1 });
    expect(issueOf(() => tubeBore(Number.NaN))).toMatchObject({ kind: 'not-a-number' });
    expect(issueOf(() => tubeBore(Number.POSITIVE_INFINITY))).toMatchObject({ kind: 'not-a-number' });
  });

  it('any text gives a bore above zero or a typed fault, never anything else', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.double()), (size) => {
        const issue = issueOf(() => expect(tubeBore(size)).toBeGreaterThan(0));
        expect(issue === undefined || typeof issue === 'object').toBe(true);
      }),
    );
  });
});
