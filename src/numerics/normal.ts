/**
 * The standard normal distribution.
 */

const ROOT_TWO_PI = Math.sqrt(2 * Math.PI);
/** Where the series hands over to the continued fraction: both have all digits there. */
const SERIES_TO = 3;
const SERIES_TERMS = 60;
const FRACTION_TERMS = 80;

/** Density at x. */
export function normalDensity(x: number): number {
  return Math.exp(-0.5 * x * x) / ROOT_TWO_PI;
}

/**
 * Probability of a value at or below x.
 * Sources: Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.2.11 (series), 26.2.14 (continued fraction).
 */
export function normalProbability(x: number): number {
  if (Number.isNaN(x)) return Number.NaN;
  const size = Math.abs(x);
  if (size <= SERIES_TO) {
    let term = size;
    let sum = term;
    for (let n = 1; n < SERIES_TERMS; n++) {
      term *= (size * size) / (2 * n + 1);
      sum += term;
    }
    const half = normalDensity(size) * sum;
    return x < 0 ? 0.5 - half : 0.5 + half;
  }
  let fraction = size;
  for (let n = FRACTION_TERMS; n > 0; n--) fraction = size + n / fraction;
  const tail = normalDensity(size) / fraction;
  return x < 0 ? tail : 1 - tail;
}

/** A first guess within 4.5e-4. Source: Abramowitz and Stegun (1964), 26.2.23. */
function roughScore(tail: number): number {
  const t = Math.sqrt(-2 * Math.log(tail));
  return t - (2.515517 + t * (0.802853 + t * 0.010328)) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308)));
}

const CORRECTIONS = 3;

/** The value below which a normal variable lies with a probability in (0, 1); NaN outside. */
export function normalScore(probability: number): number {
  if (!(probability > 0 && probability < 1)) return Number.NaN;
  const upper = probability > 0.5;
  const tail = upper ? 1 - probability : probability;
  let x = -roughScore(tail);
  for (let i = 0; i < CORRECTIONS; i++) {
    // Halley's step on ln of the tail's error
    const miss = (normalProbability(x) - tail) / normalDensity(x);
    x -= miss / (1 + 0.5 * x * miss);
  }
  return upper ? -x : x;
}
