import type { LibraryPart } from './parts.ts';

const INCH = 0.0254;
const FOOT = 0.3048;

/** Nominal bore of service hoses, in (common practice, no source). */
const HOSES = [
  { size: '1/4', bore: 0.1875, note: 'usual bores run from 4.0 to 4.8 mm' },
  { size: '3/8', bore: 0.3125, note: 'usual bores run from 7.5 to 9.5 mm' },
  { size: '1/2', bore: 0.5, note: 'usual bores run from 12 to 12.7 mm' },
  { size: '3/4', bore: 0.75, note: 'usual bore 19 mm' },
] as const;

/** Lengths that hoses are sold in. */
const LENGTHS = [
  ['3 ft', 3 * FOOT],
  ['5 ft', 5 * FOOT],
  ['6 ft', 6 * FOOT],
  ['10 ft', 10 * FOOT],
  ['0.9 m', 0.9],
  ['1.5 m', 1.5],
  ['1.8 m', 1.8],
  ['3 m', 3],
] as const;

export const hoseRows: readonly LibraryPart[] = HOSES.flatMap(({ size, bore, note }) =>
  LENGTHS.map(([label, length]) => ({
    name: `hose ${size} in x ${label}`,
    kind: 'hose' as const,
    bore: bore * INCH,
    length,
    swapGroup: 'hose',
    basis: 'common practice' as const,
    note,
  })),
);
