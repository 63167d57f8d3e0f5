import { describe, expect, it } from 'vitest';
import { tubeSize, tubeSizes } from '../../src/tables/library/tube-sizes.ts';
import { issueOf } from '../issue-of.ts';

describe('a tube size by its label', () => {
  it.each([
    ['3/8 inches', '3/8 in'],
    ["3/8''", '3/8 in'],
    ['3/8”', '3/8 in'],
    ['3\u20448 in', '3/8 in'],
    ['3 / 8 in.', '3/8 in'],
    ['0,375 in', '3/8 in'],
    ['0.38 in', '3/8 in'],
    ['3/8 OD', '3/8 in'],
    ['3/8 in o.d.', '3/8 in'],
    ['3/8" o.d', '3/8 in'],
    ['1  1/8 IN', '1 1/8 in'],
    ['1 - 1/8', '1 1/8 in'],
    ['1\u215b in', '1 1/8 in'],
    ['10/16', '5/8 in'],
    ['6/16 in', '3/8 in'],
    ['10 millimetres', '10 mm'],
    ['10 millimetre', '10 mm'],
    ['10 millimeters', '10 mm'],
    ['10 Millimeter OD', '10 mm'],
    ['12', '12 mm'],
    ['6', '6 mm'],
    ['4 1/8', '4 1/8 in'],
    ['3/4" heavy', '3/4 in heavy'],
    ['  0.75 in  HEAVY ', '3/4 in heavy'],
    // an outside diameter in millimetres
    ['19.1 mm', '3/4 in'],
    ['19.1', '3/4 in'],
    ['6.35 mm', '1/4 in'],
    ['19.05 mm heavy', '3/4 in heavy'],
  ])('%s is %s', (written, label) => {
    expect(tubeSize(written).label).toBe(label);
  });

  it.each([
    '3/8 in x',
    'about 3/8 in',
    '3/8/2',
    '3/8 in 10 mm',
    '3/8 heavy in',
    'heavy',
    'heavy 3/4 in',
    '3/8 in heavy',
    '10 mm heavy',
    '0.381 in',
    '3/8 s',
    'x 3/8',
    '1 x 1/8',
    '10 mmm',
    '10.1 mm',
    '4.4',
    '4.6',
  ])('%s is none', (written) => {
    expect(issueOf(() => tubeSize(written))).toMatchObject({ kind: 'unknown', what: 'tube size', value: written });
  });

  it('is that of the standard named, and of the first that has it where the name is blank', () => {
    expect(tubeSize('3/8', 'EN').standard).toBe('EN 12735-1');
    expect(tubeSize('9.53 mm', 'EN').label).toBe('3/8 in');
    expect(tubeSize('9.53 mm', 'ASTM B280 straight').standard).toBe('ASTM B280 straight');
    expect(tubeSize('3/8', '  ').standard).toBe('ASTM B280 coil');
    expect(issueOf(() => tubeSize('1/8', 'drawn'))).toMatchObject({ kind: 'unknown', what: 'tube size' });
  });

  it.each([
    ['coil', ['astm b280 coil', 'B280 coil', 'Coil', 'annealed', 'ASTM B280 annealed', 'ASTM B280 annealed coil']],
    [
      'straight',
      ['ASTM B280 straight', 'b280-straight', 'straight', 'drawn', 'ASTM B280 drawn', 'ASTM B280 drawn straight'],
    ],
    ['EN', ['EN 12735-1', 'EN 12735', '12735', '12735-1', 'en']],
  ])('knows %s by its other names', (standard, names) => {
    for (const name of names) expect(tubeSize('1/2 in', name).standard, name).toContain(standard);
  });

  it('is looked for in coil, then in straight, where B280 alone is named', () => {
    for (const name of ['ASTM B280', 'B280', 'ASTM']) {
      expect(tubeSize('1/2', name).standard).toBe('ASTM B280 coil');
      expect(tubeSize('2 1/8', name).standard).toBe('ASTM B280 straight');
      expect(issueOf(() => tubeSize('10 mm', name))).toMatchObject({ kind: 'unknown' });
    }
  });
});

describe('a tube size that is not known', () => {
  it('is told with the labels of the standards looked through, each once', () => {
    const labels = (standards: readonly string[]) => [
      ...new Set(tubeSizes.filter(({ standard }) => standards.includes(standard)).map(({ label }) => label)),
    ];
    expect(issueOf(() => tubeSize('7/16', 'drawn'))).toEqual({
      kind: 'unknown',
      what: 'tube size',
      value: '7/16',
      known: labels(['ASTM B280 straight']),
    });
    expect(issueOf(() => tubeSize(99))).toEqual({
      kind: 'unknown',
      what: 'tube size',
      value: '99',
      known: labels(['ASTM B280 coil', 'ASTM B280 straight', 'EN 12735-1']),
    });
  });

  it('by a number is told in full', () => {
    expect(issueOf(() => tubeSize(0))).toEqual({
      kind: 'limit',
      argument: 'size',
      value: 0,
      rule: 'above',
      limit: 0,
      unit: 'in',
    });
    expect(issueOf(() => tubeSize(Number.NaN))).toEqual({
      kind: 'not-a-number',
      argument: 'size',
      value: Number.NaN,
      expected: 'a tube size such as 3/8 in',
    });
  });
});

describe('the table of tube sizes', () => {
  it('has a bore less two walls, in metres, and a label of its figure, unit and weight', () => {
    for (const tube of tubeSizes) {
      expect(tube.bore).toBeCloseTo(tube.outside - 2 * tube.wall, 12);
      expect(tube.label.endsWith(' heavy')).toBe(tube.heavy);
      // the figure in inches is the outside diameter but for the rounding of the standards
      const nominal = tube.nominal * (tube.unit === 'in' ? 0.0254 : 0.001);
      expect(Math.abs(tube.outside - nominal), tube.label).toBeLessThan(0.06e-3);
    }
    expect(tubeSizes.filter(({ heavy }) => heavy).map(({ label }) => label)).toEqual(['3/4 in heavy']);
  });
});
