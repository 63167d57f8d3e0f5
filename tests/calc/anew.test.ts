import { afterEach, expect, test } from 'vitest';
import { closeEditors, editor } from './editor.ts';
import { book, type Content, disposeAll } from './fixture.ts';

afterEach(() => {
  closeEditors();
  disposeAll();
});

/** Numbers that look random and are the same each time: Park and Miller, Comm. ACM 31 (1988) 1192, from memory. */
function stream(seed: number) {
  let state = seed;
  const next = (below: number): number => {
    state = (state * 48_271) % 2_147_483_647;
    return state % below;
  };
  return { next, one: <T>(of: readonly T[]): T => of[next(of.length)] as T };
}

const COLUMNS = ['E', 'H', 'K', 'N', 'Q', 'T'];
const ROWS = [1, 14, 27];
const PLACES = ROWS.flatMap((row) => COLUMNS.map((column) => `${column}${row}`));
const INPUTS = ['A', 'B', 'C'].flatMap((column) => [1, 2, 3, 4, 5, 6].map((row) => `${column}${row}`));

/** A formula for a place; it may read inputs and any other place, what spills there too. */
function formula({ next, one }: ReturnType<typeof stream>, own: string): string {
  const other = one(PLACES.filter((place) => place !== own));
  const range = one(['A1:A6', 'B1:B6', 'C1:C6', 'A1:C6', 'A2:B5']);
  const column = one(['A1:A6', 'B1:B6', 'C1:C6']);
  const n = next(6) + 1;
  return one([
    `=SUM(${range})+${n}`,
    `=SORT(${column})`,
    `=SORT(${column},1,-1)`,
    `=UNIQUE(${column})`,
    `=FILTER(A1:B6,A1:A6>${n})`,
    `=FILTER(${column},${column}<${n},"none")`,
    `=${column}*${n}`,
    `=TRANSPOSE(A1:A3)`,
    `=SEQUENCE(A${n},2)`,
    `=SUM(${other}#)`,
    `=${other}#+${n}`,
    `=${other}&"x"`,
    `=IF(A${n}>3,${other},B${n})`,
    `=IFERROR(MATCH(A${n},${column},0),0)`,
    `=XLOOKUP(A${n},${column},C1:C6,"no")`,
    `=COUNTIF(${range},">"&A${n})`,
    `=INDEX(SORT(${column}),${n})`,
    `=COUNT(E1:V40)-COUNT(${own})`,
    `=LET(x,${other},IF(ISNUMBER(x),x*2,0))`,
    `=SUMPRODUCT(${column},C1:C6)`,
    `=VSTACK(${column},${n})`,
    `=TAKE(${column},-${n})`,
    `=INDEX(${other}:${other},1)`,
    `=OFFSET(A1,${next(5)},${next(3)})`,
    `=SUM(INDIRECT("A1:A${n}"))`,
  ]);
}

const content = ({ next, one }: ReturnType<typeof stream>): Content =>
  one([next(9), next(9), next(5), null, 'text', 2.5]);

const CELLS = ['A', 'B', 'C', ...'EFGHIJKLMNOPQRSTUV'].flatMap((column) =>
  Array.from({ length: 40 }, (_, row) => `${column}${row + 1}`),
);

const EDITS = 9;

test.each([7919, 15_838, 23_757])(
  'after any edits the sheet shows what it would show worked out anew (%i)',
  async (seed) => {
    const random = stream(seed);
    const cells: Record<string, Content> = {};
    for (const at of INPUTS) cells[at] = content(random);
    for (const at of PLACES) cells[at] = random.next(3) > 0 ? formula(random, at) : null;
    const { type, at } = await editor({ ...cells }, 60);
    for (let edit = 0; edit < EDITS; edit++) {
      const changes: Record<string, Content> = {};
      for (let i = random.next(2); i >= 0; i--) {
        const place = random.next(3) > 0 ? random.one(INPUTS) : random.one(PLACES);
        changes[place] =
          COLUMNS.includes(place.charAt(0)) && random.next(4) > 0 ? formula(random, place) : content(random);
      }
      Object.assign(cells, changes);
      await type(changes);
      const anew = await book({ S: { ...cells } }, {}, 60);
      const shown = (of: (cell: string) => unknown) => CELLS.map((cell) => `${cell} ${String(of(cell))}`);
      expect(shown(at), `${edit}: ${JSON.stringify(changes)}`).toEqual(shown(anew.at));
      disposeAll();
    }
  },
);
