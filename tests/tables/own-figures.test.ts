import { describe, expect, it } from 'vitest';
import type { Cell } from '../../src/tables/cells.ts';
import { ownFigures, ownWords } from '../../src/tables/own-figures.ts';
import { partsHeader, partsRows } from '../../templates/rigs.ts';

const HEADER = ['Rig', 'Part', 'Kind', 'Bore (mm)', 'Length (ft)', 'Coefficient', 'Loss', 'Speed (cfm)', 'Swap group'];

function found(...rows: readonly Cell[][]) {
  return ownFigures([HEADER, ...rows]).map((row) => ({
    row: row.row,
    part: row.part,
    figures: row.figures.map(({ header, index, own, libraryWords }) => [header, index, own, libraryWords]),
  }));
}

// 1/4 in hoses: 0.1875 in = 4.7625 mm; 1/2 in hoses: 0.5 in = 12.7 mm (the sizes that the library states in inches)
describe('figures of a row beside a name of the library', () => {
  it('are told when only the name was changed', () => {
    expect(found(['A', 'pump 4 cfm', 'pump'], ['A', 'hose 1/2 in x 6 ft', 'hose', 4.7625, 5])).toEqual([
      {
        row: 3,
        part: 'hose 1/2 in x 6 ft',
        figures: [
          ['Bore (mm)', 3, '4.7625 mm', '12.7 mm'],
          ['Length (ft)', 4, '5 ft', '6 ft'],
        ],
      },
    ]);
  });

  it('are the same within 2 %, as 1.5 m is said for 5 ft, and where they are blank', () => {
    // 1.5 m = 4.92126 ft
    expect(found(['A', 'hose 1/4 in x 5 ft', 'hose', 4.8, 4.92126])).toEqual([]);
    expect(found(['A', 'hose 1/4 in x 5 ft', '', '', ''])).toEqual([]);
    expect(found(['A', 'hose 1/4 in x 5 ft', 'hose', 4.65, 5])).toHaveLength(1);
  });

  it('are no matter where the name is not one of the library', () => {
    expect(found(['A', 'the long red hose', 'hose', 3, 40])).toEqual([]);
  });

  it('are read with units of their own, and a name in another spelling', () => {
    const [row] = found(['A', 'Hose 1/4" × 5 feet', 'hose', '1/2 in', '60 in']);
    expect(row?.part).toBe('hose 1/4 in x 5 ft');
    expect(row?.figures).toEqual([['Bore (mm)', 3, '12.7 mm', '4.7625 mm']]);
  });

  it('count in the columns that the passage uses: no coefficient in a hose, no length in a port', () => {
    expect(found(['A', 'hose 1/4 in x 5 ft', 'hose', '', '', 0.3])).toEqual([]);
    expect(found(['A', 'port 1/4 in flare', 'port', '', 12, '', 9])).toEqual([]);
    expect(found(['A', 'port 1/4 in flare', 'port', '', '', 0.6])[0]?.figures).toEqual([
      ['Coefficient', 5, '0.6', '0.8'],
    ]);
    // K of entrance, exit and one bend where none is said: the default that the column names
    expect(found(['A', 'hose 1/4 in x 5 ft', 'hose', '', '', '', 4])[0]?.figures).toEqual([['Loss', 6, '4', '1.5']]);
  });

  it('hold for pumps, whose bore means nothing', () => {
    expect(found(['A', 'pump 10 cfm', 'pump', 9, '', '', '', 4])[0]?.figures).toEqual([
      ['Speed (cfm)', 7, '4 cfm', '10 cfm'],
    ]);
  });

  it('give way to a flow coefficient of the row', () => {
    const header = ['Rig', 'Part', 'Kind', 'Bore (mm)', 'Kv'];
    expect(ownFigures([header, ['A', 'ball valve 1/4 in', 'valve', 9, 0.5]])).toEqual([]);
    expect(ownFigures([header, ['A', 'ball valve 1/4 in', 'valve', 9, '']])).toHaveLength(1);
  });

  it('are of no use to a part of another kind, and its swaps go with the kind', () => {
    const rows = ownFigures([HEADER, ['A', 'core removed', 'core', 1.3, 0.04, '', '', '', 'core']]);
    expect(rows[0]?.figures.map(({ column, library }) => [column, library])).toEqual([
      ['kind', 'tube'],
      // 0.188 in (a 1/4 in flare) and 25 mm
      ['bore', 4.7752],
      ['length', 0.082021],
    ]);
    expect(ownWords(rows[0] as never).what).toBe(
      'The parts library knows core removed as a tube: as a core none of its figures count.',
    );
  });

  it('are none in the tables that ship', () => {
    expect(ownFigures([[...partsHeader], ...partsRows()])).toEqual([]);
  });

  it('are none in what is no parts table', () => {
    expect(ownFigures([])).toEqual([]);
    expect(ownFigures([[1, 2]])).toEqual([]);
    expect(
      ownFigures([
        ['Unit', 'Rig', 'Volume (L)'],
        ['U1', 'A', 3],
      ]),
    ).toEqual([]);
    expect(
      ownFigures([
        ['Rig', 'Part'],
        [{ error: '#N/A' }, { error: '#REF!' }],
      ]),
    ).toEqual([]);
  });
});

describe('their words', () => {
  it('say what counts, and leave a measured part alone', () => {
    const [row] = ownFigures([HEADER, ['A', 'hose 1/2 in x 6 ft', 'hose', 4.7625, 5]]);
    expect(ownWords(row as never)).toEqual({
      what: "hose 1/2 in x 6 ft: the row's own Bore 4.7625 mm and Length 5 ft count, not the library's 12.7 mm and 6 ft.",
      todo: 'Leave them where you measured; otherwise clear the cells, and the library counts.',
    });
    const [one] = ownFigures([HEADER, ['A', 'hose 1/2 in x 6 ft', 'hose', '', 5]]);
    expect(ownWords(one as never)).toEqual({
      what: "hose 1/2 in x 6 ft: the row's own Length 5 ft counts, not the library's 6 ft.",
      todo: 'Leave it where you measured; otherwise clear the cell, and the library counts.',
    });
  });
});
