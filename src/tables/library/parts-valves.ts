import type { LibraryPart } from './parts.ts';

const INCH = 0.0254;

export const valveRows: readonly LibraryPart[] = [
  {
    name: 'manifold two-way 1/4 in',
    kind: 'manifold',
    bore: 0.0045,
    length: 0.1,
    loss: 4,
    swapGroup: 'manifold',
    basis: 'common practice',
    note: 'one valve seat and two turns between 1/4 in ports',
  },
  {
    name: 'manifold four-way 3/8 in',
    kind: 'manifold',
    bore: 0.0071,
    length: 0.12,
    loss: 4,
    swapGroup: 'manifold',
    basis: 'common practice',
    note: 'one valve seat and two turns, 3/8 in vacuum port',
  },
  {
    name: 'core-removal valve 1/4 in',
    kind: 'valve',
    bore: 0.188 * INCH,
    length: 0.06,
    swapGroup: 'core-removal valve',
    basis: 'common practice',
    note: 'full-bore valve on a 1/4 in access port, core drawn back; the side port is left out',
  },
  {
    name: 'core-removal valve 3/8 in side port',
    kind: 'valve',
    bore: 0.281 * INCH,
    length: 0.05,
    swapGroup: 'core-removal valve',
    basis: 'common practice',
    note: 'wide side port of a core-removal valve; its 1/4 in stem is a part of its own',
  },
  ...(
    [
      ['1/4', 0.188, 0.05],
      ['3/8', 0.281, 0.06],
      ['1/2', 0.406, 0.07],
      ['3/4', 0.625, 0.09],
    ] as const
  ).map(([size, bore, length]) => ({
    name: `ball valve ${size} in`,
    kind: 'valve' as const,
    bore: bore * INCH,
    length,
    swapGroup: 'ball valve',
    basis: 'common practice' as const,
    note: 'full-bore ball valve: as wide as its flare, straight through',
  })),
];
