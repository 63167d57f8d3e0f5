/** From values to places between 0 and 1, with the round values to be written at the axis. */
export interface Scale {
  at(value: number): number;
  readonly ticks: readonly number[];
}

const STEPS = [1, 2, 5, 10] as const;
const WANTED_TICKS = 5;
/** More decades than this get a mark at every second or third only. */
const MOST_DECADES = 7;

/** A straight scale over the values, widened to round ends. `fromZero` for bars, or their lengths would lie. */
export function linearScale(values: readonly number[], fromZero = false): Scale {
  const finite = values.filter(Number.isFinite);
  let low = Math.min(...finite, ...(fromZero ? [0] : []));
  let high = Math.max(...finite, ...(fromZero ? [0] : []));
  if (!Number.isFinite(low) || !Number.isFinite(high)) [low, high] = [0, 1];
  if (low === high) [low, high] = low === 0 ? [0, 1] : [Math.min(0, low), Math.max(0, high)];
  const rough = (high - low) / WANTED_TICKS;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = (STEPS.find((factor) => factor * power >= rough) ?? 10) * power;
  const first = Math.floor(low / step + 1e-9);
  const last = Math.ceil(high / step - 1e-9);
  const ticks = Array.from({ length: last - first + 1 }, (_, index) =>
    Number(((first + index) * step).toPrecision(12)),
  );
  const [from, to] = [first * step, last * step];
  return { at: (value) => (value - from) / (to - from), ticks };
}

/** A scale of powers of ten over the values above 0; whole decades. */
export function logScale(values: readonly number[]): Scale {
  const above = values.filter((value) => value > 0 && Number.isFinite(value));
  const low = above.length === 0 ? 0 : Math.floor(Math.log10(Math.min(...above)) + 1e-9);
  const high = above.length === 0 ? 1 : Math.max(low + 1, Math.ceil(Math.log10(Math.max(...above)) - 1e-9));
  const stride = Math.ceil((high - low) / MOST_DECADES);
  const ticks: number[] = [];
  for (let decade = low; decade <= high; decade += stride) ticks.push(Number(`1e${decade}`));
  return { at: (value) => (value > 0 ? (Math.log10(value) - low) / (high - low) : 0), ticks };
}

/** A value at an axis: short, and never in powers of ten where plain figures do. */
export function tickText(value: number): string {
  const size = Math.abs(value);
  if (size !== 0 && (size >= 1e6 || size < 1e-3)) return value.toExponential(0).replace('e+', 'e');
  return String(Number(value.toPrecision(6)));
}
