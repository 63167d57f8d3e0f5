import { raise } from '../../faults/issue.ts';
import { chebyshev, chebyshevSlope, reduced } from './chebyshev.ts';

/** One saturation line, bubble or dew: pressure at a temperature and back, the one the exact inverse of the other. */
export interface SaturationLine {
  /** Pa at K; the caller has checked the temperature */
  pressure(temperature: number): number;
  /** K at Pa; raises `model-range` outside the line */
  temperature(pressure: number): number;
}

/** Newton steps on ln p over 1/T, which is all but straight: a handful do. */
const MOST_STEPS = 40;
const CLOSE = 1e-13;

/**
 * The line of a series that holds ln p over 1/T.
 *
 * @param what in a fault: "bubble line of R-410A"
 * @param coefficients of ln(p/Pa)
 * @param lowest @param highest K
 */
export function saturationLine(
  what: string,
  coefficients: readonly number[],
  lowest: number,
  highest: number,
): SaturationLine {
  const slope = chebyshevSlope(coefficients);
  const low = 1 / lowest;
  const high = 1 / highest;
  const logAt = (inverse: number): number => chebyshev(coefficients, reduced(low, high, inverse));
  const least = logAt(low);
  const most = logAt(high);

  function temperature(pressure: number): number {
    const wanted = Math.log(pressure);
    if (!(wanted >= least - CLOSE && wanted <= most + CLOSE))
      return raise({
        kind: 'model-range',
        model: what,
        argument: 'pressure',
        value: pressure,
        min: Math.exp(least),
        max: Math.exp(most),
        unit: 'Pa',
      });
    // x from -1 (lowest) to 1 (highest) along 1/T; ln p rises with x
    let x = (2 * (wanted - least)) / (most - least) - 1;
    for (let step = 0; step < MOST_STEPS; step++) {
      const change = (chebyshev(coefficients, x) - wanted) / chebyshev(slope, x);
      x = Math.min(1, Math.max(-1, x - change));
      if (Math.abs(change) < CLOSE) break;
    }
    return 2 / (low + high + x * (high - low));
  }

  return { pressure: (kelvin) => Math.exp(logAt(1 / kelvin)), temperature };
}
