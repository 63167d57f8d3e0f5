import type { LibraryPart } from './parts.ts';

const INCH = 0.0254;
/** Through bore of a 1/4 in flare, in (SAE J512 / J513, bore column not seen: from memory). */
const QUARTER_FLARE = 0.188;

export const coreRows: readonly LibraryPart[] = [
  {
    name: 'depressor 1/4 in',
    kind: 'depressor',
    bore: 0.0028,
    length: 0.012,
    swapGroup: 'depressor',
    basis: 'fitted',
    note: 'hose end with a core depressor: pin and web leave about the area of a 2.8 mm hole over 12 mm; within the usual 2.5 to 3.5 mm, settled by the free-air reading of one small hose',
  },
  {
    name: 'core fitted',
    kind: 'core',
    bore: 0.0013,
    length: 0.012,
    swapGroup: 'core',
    basis: 'fitted',
    note: 'depressed access-valve core: annular gap by effective bore and length; the open area of cores is that of a hole of 1.5 to 2.2 mm within half, settled by the free-air reading with a core',
  },
  {
    name: 'core removed',
    kind: 'tube',
    bore: QUARTER_FLARE * INCH,
    length: 0.025,
    swapGroup: 'core',
    basis: 'from memory',
    note: 'the access valve without its core: the bore of its 1/4 in flare over a stem of 25 mm',
  },
];
