/**
 * Sparse elimination without pivoting for matrices with the pattern of a graph: the points of a tree cost a few
 * operations each, loops a little more. Meant for conservation laws, whose columns are diagonally dominant, so that no
 * pivot can vanish. The order is by least degree.
 * Source: George and Liu, Computer Solution of Large Sparse Positive Definite Systems (1981), ch. 5.
 */
export interface Elimination {
  readonly order: Int32Array;
  /** entries right of pivot k of the order: start[k] to start[k + 1] */
  readonly start: Int32Array;
  /** the later point of each entry */
  readonly later: Int32Array;
  /** for each pivot, for each pair of its entries a < b: the entry that links both later points */
  readonly fills: Int32Array;
  /** entry of the pair (i, j), and whether i is the earlier one */
  entryOf(i: number, j: number): { readonly entry: number; readonly firstIsEarlier: boolean };
}

export function planElimination(points: number, pairs: Iterable<readonly [number, number]>): Elimination {
  const near: Set<number>[] = Array.from({ length: points }, () => new Set());
  for (const [i, j] of pairs) {
    if (i === j) continue;
    near[i]?.add(j);
    near[j]?.add(i);
  }
  const buckets: number[][] = [];
  const put = (point: number): void => {
    const degree = near[point]?.size ?? 0;
    while (buckets.length <= degree) buckets.push([]);
    buckets[degree]?.push(point);
  };
  for (let i = points - 1; i >= 0; i--) put(i);
  const place = new Int32Array(points).fill(-1);
  const order = new Int32Array(points);
  const rows: number[][] = [];
  for (let k = 0; k < points; ) {
    const bucket = buckets.find((one) => one.length > 0);
    const point = bucket?.pop();
    if (bucket === undefined || point === undefined) break;
    const mine = near[point] ?? new Set<number>();
    // entries of an earlier degree are stale
    if ((place[point] ?? 0) >= 0 || buckets[mine.size] !== bucket) continue;
    place[point] = k;
    order[k] = point;
    k += 1;
    const row = [...mine];
    rows.push(row);
    for (const i of row) {
      const theirs = near[i];
      if (theirs === undefined) continue;
      theirs.delete(point);
      for (const j of row) if (j !== i) theirs.add(j);
      put(i);
    }
  }
  const start = new Int32Array(points + 1);
  const later: number[] = [];
  const entries = new Map<number, number>();
  rows.forEach((row, k) => {
    start[k] = later.length;
    const pivot = order[k] ?? 0;
    for (const i of row.sort((a, b) => (place[a] ?? 0) - (place[b] ?? 0))) {
      entries.set(pivot * points + i, later.length);
      later.push(i);
    }
  });
  start[points] = later.length;
  const entryOf = (i: number, j: number): { entry: number; firstIsEarlier: boolean } => {
    const firstIsEarlier = (place[i] ?? 0) < (place[j] ?? 0);
    return { entry: entries.get(firstIsEarlier ? i * points + j : j * points + i) ?? -1, firstIsEarlier };
  };
  const fills: number[] = [];
  for (const row of rows)
    for (let a = 0; a < row.length; a++)
      // rows are in order, so that the earlier of the two is always a
      for (let b = a + 1; b < row.length; b++) fills.push(entryOf(row[a] ?? 0, row[b] ?? 0).entry);
  return { order, start, later: Int32Array.from(later), fills: Int32Array.from(fills), entryOf };
}

/** Values on the pattern: diagonal by point; `upper` in the row of the earlier point, `lower` in that of the later. */
export interface Entries {
  readonly diagonal: Float64Array;
  readonly upper: Float64Array;
  readonly lower: Float64Array;
}

/** Factors in place; false where a pivot vanishes or is no number. */
export function eliminate({ order, start, later, fills }: Elimination, { diagonal, upper, lower }: Entries): boolean {
  let fill = 0;
  for (let k = 0; k < order.length; k++) {
    const pivot = diagonal[order[k] ?? 0] ?? 0;
    if (!(Math.abs(pivot) > 0) || !Number.isFinite(pivot)) return false;
    const from = start[k] ?? 0;
    const to = start[k + 1] ?? 0;
    for (let a = from; a < to; a++) {
      const la = (lower[a] ?? 0) / pivot;
      lower[a] = la;
      const i = later[a] ?? 0;
      diagonal[i] = (diagonal[i] ?? 0) - la * (upper[a] ?? 0);
    }
    for (let a = from; a < to; a++) {
      const la = lower[a] ?? 0;
      const ua = upper[a] ?? 0;
      for (let b = a + 1; b < to; b++) {
        const f = fills[fill++] ?? 0;
        upper[f] = (upper[f] ?? 0) - la * (upper[b] ?? 0);
        lower[f] = (lower[f] ?? 0) - (lower[b] ?? 0) * ua;
      }
    }
  }
  return true;
}

/** Solves with the factors of `eliminate`; the right-hand side becomes the solution. */
export function solveEliminated(
  { order, start, later }: Elimination,
  { diagonal, upper, lower }: Entries,
  b: Float64Array,
): void {
  for (let k = 0; k < order.length; k++) {
    const value = b[order[k] ?? 0] ?? 0;
    for (let e = start[k] ?? 0; e < (start[k + 1] ?? 0); e++) {
      const i = later[e] ?? 0;
      b[i] = (b[i] ?? 0) - (lower[e] ?? 0) * value;
    }
  }
  for (let k = order.length - 1; k >= 0; k--) {
    const point = order[k] ?? 0;
    let value = b[point] ?? 0;
    for (let e = start[k] ?? 0; e < (start[k + 1] ?? 0); e++) value -= (upper[e] ?? 0) * (b[later[e] ?? 0] ?? 0);
    b[point] = value / (diagonal[point] ?? 1);
  }
}
