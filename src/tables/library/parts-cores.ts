import type { LibraryPart } from './parts.ts';

export const coreRows: readonly LibraryPart[] = [
  {
    name: 'depressor 1/4 in',
    kind: 'depressor',
    bore: 0.003,
    length: 0.012,
    swapGroup: 'depressor',
    basis: 'fitted',
    note: 'hose end with a core depressor: the pin and its web leave about the area of a 3 mm hole over 12 mm',
  },
  {
    name: 'core fitted',
    kind: 'core',
    bore: 0.0015,
    length: 0.012,
    swapGroup: 'core',
    basis: 'common practice',
    note: 'depressed access-valve core: open area of a hole of 1.5 to 2.2 mm, here an annular gap by its effective bore',
  },
  {
    name: 'core removed',
    kind: 'tube',
    bore: 0.188 * 0.0254,
    length: 0.025,
    swapGroup: 'core',
    basis: 'from memory',
    note: 'the access valve without its core: the bore of its 1/4 in flare over a stem of 25 mm',
  },
];
