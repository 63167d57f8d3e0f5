import { describe, expect, it } from 'vitest';
import { lines, widthOf } from '../../src/pane/rig/letters.ts';

/** Advance widths of DejaVu Sans Bold 2.37, in 2048ths of the size, as the font file has them. */
const ADVANCES: Readonly<Record<string, number>> = {
  ' ': 713,
  '!': 934,
  '"': 1067,
  '#': 1716,
  $: 1425,
  '%': 2052,
  '&': 1786,
  "'": 627,
  '(': 936,
  ')': 936,
  '*': 1071,
  '+': 1716,
  ',': 778,
  '-': 850,
  '.': 778,
  '/': 748,
  '0': 1425,
  '1': 1425,
  '2': 1425,
  '3': 1425,
  '4': 1425,
  '5': 1425,
  '6': 1425,
  '7': 1425,
  '8': 1425,
  '9': 1425,
  ':': 819,
  ';': 819,
  '<': 1716,
  '=': 1716,
  '>': 1716,
  '?': 1188,
  '@': 2048,
  A: 1585,
  B: 1561,
  C: 1503,
  D: 1700,
  E: 1399,
  F: 1399,
  G: 1681,
  H: 1714,
  I: 762,
  J: 762,
  K: 1587,
  L: 1305,
  M: 2038,
  N: 1714,
  O: 1741,
  P: 1501,
  Q: 1741,
  R: 1577,
  S: 1475,
  T: 1397,
  U: 1663,
  V: 1585,
  W: 2259,
  X: 1579,
  Y: 1483,
  Z: 1485,
  '[': 936,
  '\\': 748,
  ']': 936,
  '^': 1716,
  _: 1024,
  '`': 1024,
  a: 1382,
  b: 1466,
  c: 1214,
  d: 1466,
  e: 1389,
  f: 891,
  g: 1466,
  h: 1458,
  i: 702,
  j: 702,
  k: 1362,
  l: 702,
  m: 2134,
  n: 1458,
  o: 1407,
  p: 1466,
  q: 1466,
  r: 1010,
  s: 1219,
  t: 979,
  u: 1458,
  v: 1335,
  w: 1892,
  x: 1321,
  y: 1335,
  z: 1192,
  '{': 1458,
  '|': 748,
  '}': 1458,
  '~': 1716,
  '°': 1024,
  µ: 1507,
  '²': 897,
  '³': 897,
  '·': 778,
  '×': 1716,
  '≈': 1716,
  '…': 2048,
  '–': 1024,
  '—': 2048,
  ä: 1382,
  ö: 1407,
  ü: 1458,
  ß: 1473,
  é: 1389,
  ñ: 1458,
  Å: 1585,
  Ö: 1741,
  Æ: 2222,
  Œ: 2390,
  Ж: 2507,
  щ: 2264,
};

describe('room for text in a drawing', () => {
  it('is never less than a wide bold font takes', () => {
    for (const [sign, width] of Object.entries(ADVANCES)) {
      expect(widthOf(sign, 2048, 'bold'), sign).toBeGreaterThanOrEqual(width);
    }
  });

  it('breaks between words, and inside a word that is longer than a line', () => {
    expect(lines('1  short hose', 162, 12, 2)).toEqual(['1 short hose']);
    const broken = lines('3 Charging-and-evacuating-hose', 162, 12, 3);
    expect(broken.join('').replaceAll(' ', '')).toBe('3Charging-and-evacuating-hose');
    expect(broken[0]).toBe('3');
    for (const line of broken) expect(widthOf(line, 12, 'bold')).toBeLessThanOrEqual(162);
  });

  it('says by … that there is more', () => {
    const made = lines('WIDE MANIFOLD WITH MANY WHEELS AND MORE WORDS THAN FIT', 162, 12, 2);
    expect(made).toHaveLength(2);
    expect(made[1]).toMatch(/…$/);
    for (const line of made) expect(widthOf(line, 12, 'bold')).toBeLessThanOrEqual(162);
    expect(lines('', 162, 12, 2)).toEqual([]);
  });
});
