import { libraryPart } from '../../src/tables/library/parts.ts';
import { tubeSize } from '../../src/tables/library/tube-sizes.ts';
import { account, between, type Comparison, closeTo, same } from './account.ts';
import type { ReferenceRow } from './rows.ts';

const INCH = 0.0254;
const METRIC = 'EN 12735-1 metric tube';

export const standardOf = (row: ReferenceRow): string | undefined => {
  const item = row.cells.item ?? '';
  if (item.startsWith('ASTM B280 annealed coil')) return 'ASTM B280 coil';
  if (item.startsWith('ASTM B280 drawn straight')) return 'ASTM B280 straight';
  if (item.startsWith('EN 12735-1')) return 'EN 12735-1';
  return undefined;
};

/** The row's own allowance on the wall, m: "wall abs:0.003 in" or "wall rel:0.1". */
function wallAllowance(row: ReferenceRow): number {
  const match = /wall (abs|rel):([\d.]+)/.exec(row.tolerance);
  if (match === null) throw new Error(`${row.id}: no wall tolerance`);
  return match[1] === 'abs' ? Number(match[2]) * INCH : (Number(match[2]) * Number(row.cells.wall_mm)) / 1000;
}

/** Tube of a listed size: wall, bore and outside diameter in mm. */
function tubeOf(row: ReferenceRow): Comparison[] {
  const tube = tubeSize(`${row.cells.size_label}${row.cells.item === METRIC ? ' mm' : ''}`, standardOf(row));
  const slack = wallAllowance(row) * 1000;
  return [
    closeTo(tube.wall * 1000, Number(row.cells.wall_mm), slack, 'wall, mm'),
    closeTo(tube.bore * 1000, Number(row.cells.ID_mm), 2 * slack, 'bore, mm'),
    // outside diameters have no tolerance of their own in the file; both standards round them to 0.05 mm at most
    closeTo(tube.outside * 1000, Number(row.cells.OD_mm), 0.05, 'outside, mm'),
    same(tube.basis, row.basis === 'from-memory' ? 'from memory' : row.basis, 'basis'),
  ];
}

const PART_OF: Readonly<Record<string, string>> = {
  'TU-052': 'port 1/4 in flare',
  'TU-054': 'port 3/8 in flare',
  'TU-055': 'port 1/2 in flare',
  'TU-056': 'port 5/8 in flare',
  'TU-057': 'port 3/4 in flare',
  'TU-077': 'hose 1/4 in x 5 ft',
  'TU-078': 'hose 3/8 in x 5 ft',
  'TU-079': 'hose 1/2 in x 5 ft',
  'TU-080': 'hose 3/4 in x 5 ft',
};

function partOf(row: ReferenceRow): Comparison {
  const slack = Number(/ID abs:([\d.]+) in/.exec(row.tolerance)?.[1]) * INCH * 1000;
  const bore = (libraryPart(PART_OF[row.id] ?? '').bore ?? 0) * 1000;
  return closeTo(bore, Number(row.cells.ID_mm), slack, 'bore, mm');
}

/** Cv by hand: water at 1 bar through bore and length, K = loss + f L/D with the friction factor of Blasius. */
function cvOf(name: string): number {
  const { bore = 0, length = 0, loss = 1.5 } = libraryPart(name);
  const area = (Math.PI / 4) * bore ** 2;
  let speed = 10;
  for (let i = 0; i < 20; i++) {
    const friction = 0.316 / ((speed * bore) / 1.0e-6) ** 0.25;
    speed = Math.sqrt((2 * 1e5) / (1000 * (loss + (friction * length) / bore)));
  }
  return (area * speed * 3600) / 0.865;
}

/** The open area of the depressed core is that of a hole of 1.5 to 2.2 mm, good to half. */
function coreBore(): Comparison {
  const bore = (libraryPart('core fitted').bore ?? 0) * 1000;
  return between(bore, 1.5 * (1 - 0.5), 2.2 * (1 + 0.5), '1.5 to 2.2', 'bore of the same area, mm, good to half');
}

/** Of the order of 0.1 to 0.15, good to half, and several times larger with the core removed. */
function coreFlow(): Comparison[] {
  const fitted = cvOf('core fitted');
  return [
    between(fitted, 0.1 * (1 - 0.5), 0.15 * (1 + 0.5), '0.1 to 0.15', 'Cv with the core, good to half'),
    between(cvOf('core removed') / fitted, 3, Number.MAX_VALUE, 'several', 'times as much without it'),
  ];
}

const LISTED: Readonly<Record<string, string>> = {
  'TU-051': '3/16 in flare: no such part in the library',
  'TU-053': '5/16 in flare: no such part in the library',
  ...Object.fromEntries(
    ['TU-058', 'TU-059', 'TU-060', 'TU-061', 'TU-062'].map((id) => [
      id,
      '37 degree flare: not the refrigeration flare',
    ]),
  ),
  ...Object.fromEntries(
    ['TU-063', 'TU-064', 'TU-065', 'TU-066', 'TU-067', 'TU-068', 'TU-069'].map((id) => [
      id,
      'a thread: nothing flows through it',
    ]),
  ),
  'TU-070': 'scope of a standard, no figure for flow',
  'TU-071': 'a connection by its thread, no figure for flow',
  'TU-072': 'a thread: nothing flows through it',
  'TU-073': 'a thread: nothing flows through it',
  'TU-074': 'burst pressure of hoses: no function computes it',
};

export const tubes = account(
  'tubes_copper',
  [
    [/^TU-075$/, coreBore],
    [/^TU-076$/, coreFlow],
    [new RegExp(`^(${Object.keys(PART_OF).join('|')})$`, 'u'), partOf],
    [/^TU-0([0-4]\d|50)$/, tubeOf],
  ],
  LISTED,
);
