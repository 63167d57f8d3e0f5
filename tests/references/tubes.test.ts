import { describe, expect, it } from 'vitest';
import { libraryPart } from '../../src/tables/library/parts.ts';
import { tubeSize, tubeSizes } from '../../src/tables/library/tube-sizes.ts';
import { cite, type ReferenceRow, referenceRows } from './rows.ts';

const rows = referenceRows('tubes_copper');
const INCH = 0.0254;

const standardOf = (row: ReferenceRow): string | undefined => {
  const item = row.cells.item ?? '';
  if (item.startsWith('ASTM B280 annealed coil')) return 'ASTM B280 coil';
  if (item.startsWith('ASTM B280 drawn straight')) return 'ASTM B280 straight';
  if (item.startsWith('EN 12735-1')) return 'EN 12735-1';
  return undefined;
};
const tubeRows = rows.filter((row) => standardOf(row) !== undefined);

/** The row's own allowance on the wall, m: "wall abs:0.003 in" or "wall rel:0.1". */
function wallAllowance(row: ReferenceRow): number {
  const match = /wall (abs|rel):([\d.]+)/.exec(row.tolerance);
  if (match === null) throw new Error(`${row.id}: no wall tolerance`);
  return match[1] === 'abs' ? Number(match[2]) * INCH : (Number(match[2]) * Number(row.cells.wall_mm)) / 1000;
}

describe('copper tube of every listed size has the bore of its standard', () => {
  it.each(tubeRows.map((row) => [`${row.id} ${row.cells.item} ${row.cells.size_label}`, row] as const))(
    '%s',
    (_, row) => {
      const metric = row.cells.item === 'EN 12735-1 metric tube';
      const tube = tubeSize(`${row.cells.size_label}${metric ? ' mm' : ''}`, standardOf(row));
      const allowance = wallAllowance(row);
      expect(Math.abs(tube.wall - Number(row.cells.wall_mm) / 1000), cite(row)).toBeLessThanOrEqual(allowance);
      expect(Math.abs(tube.bore - Number(row.cells.ID_mm) / 1000), cite(row)).toBeLessThanOrEqual(2 * allowance);
      // outside diameters have no tolerance of their own in the file; both standards round them to 0.05 mm at most
      expect(Math.abs(tube.outside - Number(row.cells.OD_mm) / 1000), cite(row)).toBeLessThanOrEqual(0.05e-3);
      expect(tube.basis, cite(row)).toBe(row.basis === 'from-memory' ? 'from memory' : row.basis);
    },
  );

  it('lists no tube that has no reference row', () => {
    expect(tubeSizes).toHaveLength(tubeRows.length);
  });
});

describe('library bores agree with the reference rows', () => {
  const partOf: Readonly<Record<string, string>> = {
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
  const used = rows.filter((row) => partOf[row.id] !== undefined);

  it.each(used.map((row) => [`${row.id} ${row.cells.item} ${row.cells.size_label}`, row] as const))('%s', (_, row) => {
    const part = libraryPart(partOf[row.id] ?? '');
    const allowance = Number(/ID abs:([\d.]+) in/.exec(row.tolerance)?.[1]) * INCH;
    expect(Math.abs((part.bore ?? 0) - Number(row.cells.ID_mm) / 1000), cite(row)).toBeLessThanOrEqual(allowance);
  });

  it('TU-075 the open area of the depressed core is that of a hole of 1.5 to 2.2 mm, within half', () => {
    const row = rows.find(({ id }) => id === 'TU-075');
    const bore = (libraryPart('core fitted').bore ?? 0) * 1000;
    const note = row === undefined ? '' : cite(row);
    expect(bore, note).toBeGreaterThanOrEqual(1.5 * (1 - 0.5));
    expect(bore, note).toBeLessThanOrEqual(2.2 * (1 + 0.5));
  });

  it('covers every row of the file but those listed here with the reason', () => {
    const elsewhere: Readonly<Record<string, string>> = {
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
      'TU-076': 'flow of a core by Cv: checked in the trade tests beside the other facts of the core',
    };
    const covered = new Set([...tubeRows.map(({ id }) => id), ...used.map(({ id }) => id), 'TU-075']);
    const left = rows.map(({ id }) => id).filter((id) => !covered.has(id));
    expect(left).toEqual(Object.keys(elsewhere));
  });
});
