import { keeping } from '../engine/keep.ts';
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

/** JSON has no word for these. */
const nonFinite = (_: string, value: unknown): unknown =>
  typeof value === 'number' && !Number.isFinite(value) ? `\0${value}` : value;

/**
 * One record for equal content: gives the record that was given before where its content is the same, else the one given.
 *
 * @param most records that are kept, the latest used
 */
export function sharedRecords<T extends object>(most: number): (record: T) => T {
  const keep = keeping<T>(most);
  return (record) => keep(JSON.stringify(record, nonFinite), () => record);
}

/**
 * Shares what is read from a range between calls that give the same content: the cells of a sheet that use one parts
 * table get one record. What is kept never changes a result, since the key is the whole content; a fault is not kept.
 */
export function byContent<T>(read: (range: CellRange) => T): (range: CellRange) => T {
  const keep = keeping<T>(MOST_KEPT);
  return (range) => {
    const key = contentKey(range);
    return key === undefined ? read(range) : keep(key, () => read(range));
  };
}
