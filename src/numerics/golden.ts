/** The share of an interval that each step of golden-section search keeps. */
export const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * Place of the minimum of a function with one valley between `low` and `high`, by golden-section search (Kiefer, Proc.
 * Am. Math. Soc. 4 (1953) 502, from memory): one evaluation a step, each step keeps 0.618 of the interval.
 *
 * @param tolerance width of the interval at which the search ends, above 0
 * @returns the middle of the last interval
 */
export function goldenMinimum(f: (x: number) => number, low: number, high: number, tolerance: number): number {
  let a = low;
  let b = high;
  let c = b - GOLDEN * (b - a);
  let d = a + GOLDEN * (b - a);
  let fc = f(c);
  let fd = f(d);
  while (b - a > tolerance) {
    if (fc < fd) {
      b = d;
      d = c;
      fd = fc;
      c = b - GOLDEN * (b - a);
      fc = f(c);
    } else {
      a = c;
      c = d;
      fc = fd;
      d = a + GOLDEN * (b - a);
      fd = f(d);
    }
  }
  return 0.5 * (a + b);
}
