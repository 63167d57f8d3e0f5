import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sideBySide } from '../../src/hosts/sheet/side-by-side.ts';

const upToFrozen = (frozen: number) => (column: number) => column < frozen;
const upTo = (count: number): number[] => Array.from({ length: count }, (_, column) => column);

describe('columns of a wide table on pages side by side', () => {
  it('stay on one page where they fit', () => {
    expect(sideBySide(upTo(5), () => 100, upToFrozen(1), 500)).toEqual([upTo(5)]);
  });

  it('go on as few pages as fit, about equally wide, with the frozen ones on each', () => {
    // six of 100 and one frozen: 100 + 500 and 100 + 100 would fit, too
    expect(sideBySide(upTo(7), () => 100, upToFrozen(1), 600)).toEqual([
      [0, 1, 2, 3],
      [0, 4, 5, 6],
    ]);
    expect(sideBySide([2, 3, 7, 9], () => 100, upToFrozen(3), 300)).toEqual([
      [2, 3, 7],
      [2, 9],
    ]);
  });

  it('repeat nothing where the frozen ones would take more than half a page', () => {
    expect(sideBySide(upTo(4), (column) => (column === 0 ? 300 : 200), upToFrozen(1), 500)).toEqual([
      [0, 1],
      [2, 3],
    ]);
  });

  it('repeat columns further right from the page on that comes after them', () => {
    expect(
      sideBySide(
        upTo(6),
        () => 100,
        (column) => column === 1,
        300,
      ),
    ).toEqual([
      [0, 1, 2],
      [1, 3, 4],
      [1, 5],
    ]);
    // the first page ends before the column: it stands there once, and again on the page after that
    expect(
      sideBySide(
        upTo(5),
        () => 100,
        (column) => column === 2,
        200,
      ),
    ).toEqual([
      [0, 1],
      [2, 3],
      [2, 4],
    ]);
  });

  it('give a column that is wider than a page a page of its own', () => {
    expect(sideBySide(upTo(3), (column) => (column === 1 ? 900 : 100), upToFrozen(0), 400)).toEqual([[0], [1], [2]]);
  });

  it('all come, in order, and no page is wider than there is room unless a column is', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 400 }), { minLength: 1, maxLength: 30 }),
        fc.integer({ min: 0, max: 3 }),
        (widths, frozen) => {
          const pages = sideBySide(upTo(widths.length), (column) => widths[column] ?? 0, upToFrozen(frozen), 800);
          const seen = new Set<number>();
          for (const column of pages.flat()) {
            if (!seen.has(column)) expect(column).toBe(seen.size);
            seen.add(column);
          }
          expect(seen.size).toBe(widths.length);
          for (const page of pages)
            expect(page.reduce((sum, column) => sum + (widths[column] ?? 0), 0)).toBeLessThanOrEqual(800);
        },
      ),
    );
  });
});
