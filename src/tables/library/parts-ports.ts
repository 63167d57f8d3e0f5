import type { LibraryPart } from './parts.ts';

const INCH = 0.0254;
/** Discharge coefficient of a short opening with a broken edge; also the default of the port function. */
const COEFFICIENT = 0.8;

/** Through bore of a 45 degree flare fitting, in (SAE J512 / J513, bore column not seen: from memory). */
const FLARE_BORES = [
  ['1/4', 0.188],
  ['3/8', 0.281],
  ['1/2', 0.406],
  ['5/8', 0.5],
  ['3/4', 0.625],
] as const;

const flarePorts: readonly LibraryPart[] = FLARE_BORES.map(([size, bore]) => ({
  name: `port ${size} in flare`,
  kind: 'port',
  bore: bore * INCH,
  coefficient: COEFFICIENT,
  swapGroup: 'port',
  basis: 'from memory',
  note: 'through bore of a 45 degree flare fitting, SAE J512 / J513',
}));

/** A hose end of another size than the hose: the bore of the smaller flare on a short stem. */
const endFittings: readonly LibraryPart[] = (
  [
    ['1/4', '3/8'],
    ['1/4', '1/2'],
    ['3/8', '1/2'],
    ['1/2', '3/4'],
  ] as const
).map(([end, hose]) => ({
  name: `end ${end} in on ${hose} in hose`,
  kind: 'tube',
  bore: (FLARE_BORES.find(([size]) => size === end)?.[1] ?? 0) * INCH,
  length: 0.03,
  swapGroup: 'end',
  basis: 'from memory',
  note: 'flare bore over a stem of 30 mm; the stem length is common practice',
}));

export const portRows: readonly LibraryPart[] = [...flarePorts, ...endFittings];
