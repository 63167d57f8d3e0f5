import { afterEach, describe, expect, it } from 'vitest';
import { book, disposeAll } from './fixture.ts';

afterEach(disposeAll);

describe('a sorted copy of a range', () => {
  const CELLS = { A1: 3, A2: 1, A3: 2, B1: 'x', B2: 'y', B3: 'z' };

  it.each([
    ['=SORT(A1:A3)', [1, 2, 3]],
    ['=SORT(A1:A3,1,-1)', [3, 2, 1]],
    ['=INDEX(SORT(A1:B3,2,-1),0,1)', [2, 1, 3]],
  ])('%s leaves the range as it is for every other formula', async (formula, sorted) => {
    const others = {
      G: '=A1:A3*10',
      H: '=XLOOKUP(1,A1:A3,B1:B3)',
      I: '=SUMPRODUCT(A1:A3,{1;2;3})',
      J: '=TEXTJOIN(",",TRUE,A1:A3)',
      K: '=INDEX(A1:B3,2,1)&INDEX(A1:B3,3,2)',
      L: '=INDEX(UNIQUE(A1:A3),1)',
    };
    // before and after it in the order of calculation
    const above = Object.fromEntries(Object.entries(others).map(([column, text]) => [`${column}1`, text]));
    const below = Object.fromEntries(Object.entries(others).map(([column, text]) => [`${column}9`, text]));
    const { at } = await book({ S: { ...CELLS, ...above, D5: formula, ...below } });
    expect(['D5', 'D6', 'D7'].map((cell) => at(cell))).toEqual(sorted);
    for (const row of [1, 9]) {
      expect([`G${row}`, `G${row + 1}`, `G${row + 2}`].map((cell) => at(cell))).toEqual([30, 10, 20]);
      expect(['H', 'I', 'J', 'K', 'L'].map((column) => at(`${column}${row}`))).toEqual(['y', 11, '3,1,2', '1z', 3]);
    }
    expect(['A1', 'A2', 'A3', 'B1'].map((cell) => at(cell))).toEqual([3, 1, 2, 'x']);
  });
});

describe('INDEX with many positions', () => {
  // D4 is blank, F1 fills five cells
  const CELLS = { D1: 3, D2: 1, D3: 2, D5: 5, E1: 'a', E5: 'e', F1: '=SEQUENCE(5,1,10,10)' };

  it.each<[formula: string, rows: readonly (readonly unknown[])[]]>([
    ['=INDEX(SORT(D1:D3),SEQUENCE(3))', [[1], [2], [3]]],
    ['=INDEX(SORT({3;1;2}),{3;1})', [[3], [1]]],
    ['=INDEX(UNIQUE(D1:D3),{2;1})', [[1], [3]]],
    ['=INDEX({5;6;7},{1;3})', [[5], [7]]],
    ['=INDEX({5,6,7},{1,3})', [[5, 7]]],
    [
      '=INDEX({5,6;7,8},{2;1},{1,2})',
      [
        [7, 8],
        [5, 6],
      ],
    ],
    ['=INDEX(D1:D5,SEQUENCE(5))+0', [[3], [1], [2], [0], [5]]],
    [
      '=INDEX(D1:E5,{1;5},{1,2})',
      [
        [3, 'a'],
        [5, 'e'],
      ],
    ],
    ['=INDEX(F1:F5,{2;5})', [[20], [50]]],
    ['=INDEX(D1:D5,F1:F2/10)', [[3], [1]]],
    ['=INDEX(D1:D3,{1;4})', [[3], ['#REF!']]],
    ['=INDEX(D1:E3,{1;2;3},{1;2})+0', [[3], [0], ['#N/A']]],
    ['=INDEX(D1:D5,SEQUENCE(5))&"x"', [['3x'], ['1x'], ['2x'], ['x'], ['5x']]],
    ['=SUM(INDEX(SORT(D1:D3),SEQUENCE(2)))', [[3]]],
    ['=ISTEXT(INDEX(SORT(D1:D3),{1;2}))', [[false], [false]]],
    // one position is a reference, as before
    ['=ROW(INDEX(D1:D5,{3}))', [[3]]],
    ['=INDEX(D1:E5,5,0)', [[5, 'e']]],
  ])('%s', async (formula, rows) => {
    const { at } = await book({ S: { ...CELLS, J10: formula } });
    expect(rows.map((row, r) => row.map((_, c) => at(`${'JKL'[c]}${10 + r}`)))).toEqual(rows);
    expect(at(`J${10 + rows.length}`)).toBeNull();
  });
});

describe('ranges of different sizes', () => {
  it('have no sum of products', async () => {
    const { at, words } = await book({
      S: {
        ...{ A1: 1, A2: 2, A3: 3, B1: 10, B2: 20, B3: 30 },
        D1: '=SUMPRODUCT(A1:A3,B1:B3)',
        D2: '=SUMPRODUCT(A1:A3,B1:B2)',
        D3: '=SUMPRODUCT(A1:A2,B1:B3)',
        D4: '=SUMPRODUCT(A1:B1,A1:A2)',
        D5: '=SUMPRODUCT(A1:A3*B1:B3)',
        D6: '=SUMPRODUCT(A2,B2)',
      },
    });
    expect(['D1', 'D2', 'D3', 'D4', 'D5', 'D6'].map((cell) => at(cell))).toEqual([
      ...[140, '#VALUE!', '#VALUE!', '#VALUE!', 140, 40],
    ]);
    expect(words('D2')).toContain('not of the same size');
  });

  // every pair of shapes and operator against the rule itself: one row, column or cell stands for all, what has no partner is #N/A
  const SHAPES = [
    ...([1, 2, 3] as const).flatMap((rows) => ([1, 2, 3] as const).map((columns) => [rows, columns] as const)),
  ];
  const OPERATORS: Readonly<Record<string, (a: number, b: number) => number | boolean | string>> = {
    '+': (a, b) => a + b,
    '-': (a, b) => a - b,
    '*': (a, b) => a * b,
    '>': (a, b) => a > b,
    '=': (a, b) => a === b,
    '<>': (a, b) => a !== b,
    '&': (a, b) => `${a}${b}`,
  };
  const CORNER = 4;
  const valueAt = (row: number, column: number): number => 10 * (row + 1) + column + 1;
  type Shape = readonly [rows: number, columns: number];
  const written = ([rows, columns]: Shape, from: number, literal: boolean): string => {
    const letter = (column: number): string => String.fromCharCode(65 + column);
    if (!literal) return `${letter(from)}${from + 1}:${letter(from + columns - 1)}${from + rows}`;
    const line = (row: number): string =>
      Array.from({ length: columns }, (_, column) => valueAt(from + row, from + column)).join(',');
    return `{${Array.from({ length: rows }, (_, row) => line(row)).join(';')}}`;
  };
  const partner = ([rows, columns]: Shape, from: number, row: number, column: number): number | undefined => {
    const [r, c] = [rows === 1 ? 0 : row, columns === 1 ? 0 : column];
    return r < rows && c < columns ? valueAt(from + r, from + c) : undefined;
  };

  it.each(Object.keys(OPERATORS))('meet in %s cell by cell, and what has no partner is #N/A', async (operator) => {
    const cells = Object.fromEntries(
      Array.from({ length: 64 }, (_, i) => {
        const [row, column] = [i >> 3, i & 7];
        return [`${String.fromCharCode(65 + column)}${row + 1}`, valueAt(row, column)];
      }),
    );
    const { calculator } = await book({ S: cells });
    const cases = SHAPES.flatMap((a) =>
      SHAPES.flatMap((b) => [false, true].flatMap((first) => [false, true].map((second) => ({ a, b, first, second })))),
    );
    const answers = calculator.evaluate(
      cases.map(({ a, b, first, second }) => `=${written(a, 0, first)}${operator}${written(b, CORNER, second)}`),
    );
    cases.forEach(({ a, b, first, second }, i) => {
      const answer = answers[i];
      if (answer === undefined || 'error' in answer) throw new Error(answer?.message ?? 'no answer');
      const wanted = Array.from({ length: Math.max(a[0], b[0]) }, (_, row) =>
        Array.from({ length: Math.max(a[1], b[1]) }, (_unused, column) => {
          const [x, y] = [partner(a, 0, row, column), partner(b, CORNER, row, column)];
          return x === undefined || y === undefined ? '#N/A' : OPERATORS[operator]?.(x, y);
        }),
      );
      const shown = Array.isArray(answer.value) ? answer.value : [[answer.value]];
      expect(shown, `${a.join(' x ')} ${first} ${operator} ${b.join(' x ')} ${second}`).toEqual(wanted);
    });
  });
});
