import { type CellRange, isBlank, isCellError } from './cells.ts';

/** Ranges above this many cells are read anew each time: making their key would cost as much. */
const MOST_CELLS = 20_000;
const MOST_KEPT = 16;

/** Text that is the same for two ranges just when their cells are; all forms of a blank are one. */
function contentKey(range: CellRange): string | undefined {
  let cells = 0;
  const lines: string[] = [];
  for (const row of range) {
    cells += row.length;
    if (cells > MOST_CELLS) return undefined;
    lines.push(
      row
        .map((cell) => {
          if (typeof cell === 'number') return `n${cell}`;
          if (isBlank(cell)) return '';
          if (typeof cell === 'string') return JSON.stringify(cell);
          if (isCellError(cell)) return `e${cell.error}`;
          return typeof cell === 'boolean' ? `b${cell}` : '';
        })
        .join('\t'),
    );
  }
  return lines.join('\n');
}

/**
 * Shares what is read from a range between calls that give the same content: the cells of a sheet that use one parts
 * table get one record. What is kept never changes a result, since the key is the whole content; a fault is not kept.
 */
export function byContent<T>(read: (range: CellRange) => T): (range: CellRange) => T {
  const kept = new Map<string, T>();
  return (range) => {
    const key = contentKey(range);
    if (key === undefined) return read(range);
    const known = kept.get(key);
    if (known !== undefined) {
      // last used stays longest
      kept.delete(key);
      kept.set(key, known);
      return known;
    }
    const value = read(range);
    kept.set(key, value);
    const [oldest] = kept.keys();
    if (kept.size > MOST_KEPT && oldest !== undefined) kept.delete(oldest);
    return value;
  };
}
