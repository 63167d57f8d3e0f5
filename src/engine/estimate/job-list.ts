/** Jobs still to begin, in order; one is taken out without moving the others. */
export interface JobList {
  readonly order: readonly number[];
  /** place that follows a place, and the one before it; the first follows the end */
  readonly after: Int32Array;
  readonly before: Int32Array;
  /** by kind: the first place of a job of that kind, the end where none is left; and the next one of the same kind */
  readonly firstOf: Int32Array;
  readonly sameAfter: Int32Array;
}

/**
 * @param order indices of the jobs
 * @param kindOf by job: the number of its kind, below `kindCount`
 */
export function jobList(order: readonly number[], kindOf: Int32Array, kindCount: number): JobList {
  const ending = order.length;
  const after = new Int32Array(ending + 1);
  const before = new Int32Array(ending + 1);
  const firstOf = new Int32Array(kindCount).fill(ending);
  const sameAfter = new Int32Array(ending + 1);
  for (let place = 0; place < ending; place++) {
    after[place] = place + 1;
    before[place + 1] = place;
  }
  after[ending] = 0;
  before[0] = ending;
  for (let place = ending - 1; place >= 0; place--) {
    const kind = kindOf[order[place] ?? 0] ?? 0;
    sameAfter[place] = firstOf[kind] ?? ending;
    firstOf[kind] = place;
  }
  return { order, after, before, firstOf, sameAfter };
}
