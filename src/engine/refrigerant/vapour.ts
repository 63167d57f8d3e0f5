import { raise } from '../../faults/issue.ts';
import { MOLAR_GAS_CONSTANT } from '../gas/constants.ts';
import { chebyshev, reduced } from './chebyshev.ts';
import type { RefrigerantTable } from './table.ts';

const MOST_STEPS = 60;
/** of the density, relative: Newton's steps square the error, the last one is far below this */
const CLOSE = 1e-9;
/** A pressure so little above the dew line, relative, is rounding of the caller's. */
const ON_THE_LINE = 1e-6;

/** What the vapour leans on: the dew line and its density, from `saturation.ts` and the series. */
export interface DewLine {
  /** Pa, kg/m3 at K from `lowest` to `highest` */
  pressure(temperature: number): number;
  density(temperature: number): number;
  /** the variable of saturated series, (1 - T/Tc)^(1/3) */
  variable(temperature: number): number;
}

type Columns = readonly (readonly number[])[];

/** A surface by its columns: for each power of d the series in T. */
function columnsOf(surface: readonly (readonly number[])[]): Columns {
  const columns = Math.max(...surface.map((row) => row.length));
  return Array.from({ length: columns }, (_, j) => surface.map((row) => row[j] ?? 0));
}

/** Series in d at one temperature. */
function along(columns: Columns, x: number): number[] {
  return columns.map((column) => chebyshev(column, x));
}

/**
 * Density of vapour at and below the dew line (real gas).
 *
 * Z = p/(rho R_s T) as a short polynomial in d = rho/rho_dew that meets Z_dew at d = 1 and the ideal gas at d = 0:
 * Z = 1 + d (Z_dew - 1)(1 + (1 - d) r(T, d)). It is solved for d by Newton's method from the ideal gas: p(d) rises and
 * bends down, so that the steps come from one side. Above `highest` the same with d = rho/rho_dew(highest) and
 * Z = 1 + d c(T, d), for pressures to the dew pressure at `highest`. The caller has checked the temperature.
 * Source: made and checked by tools/refrigerants/make_tables.py from the equations of state.
 */
export function vapourDensityOf(table: RefrigerantTable, dew: DewLine, warmest: number) {
  const gasConstant = MOLAR_GAS_CONSTANT / table.molarMass;
  const { lowest, highest } = table;
  const lastPressure = dew.pressure(highest);
  const lastDensity = dew.density(highest);
  const low = dew.variable(lowest);
  const high = dew.variable(highest);

  const cold = columnsOf(table.vapourShape);
  const hot = columnsOf(table.warmShape ?? [[0]]);

  function solve(compressibility: (d: number) => number, most: number, ideal: number): number {
    // ideal = p/(R_s T rho of d = 1), so d Z(d) = ideal; the slope by a difference is good enough for Newton here
    let d = Math.min(ideal, most);
    for (let step = 0; step < MOST_STEPS; step++) {
      const small = 1e-6 * Math.max(d, 1e-9);
      const here = d * compressibility(d);
      const slope = ((d + small) * compressibility(d + small) - here) / small;
      const error = here - ideal;
      const next = slope > 0 ? Math.min(most, d - error / slope) : most;
      if (Math.abs(next - d) <= CLOSE * next) return next;
      d = next;
    }
    return d;
  }

  return (temperature: number, pressure: number): number => {
    const warm = temperature > highest;
    const most = warm ? lastPressure : dew.pressure(temperature);
    if (!(pressure >= 0 && pressure <= most * (1 + ON_THE_LINE)))
      return raise({
        kind: 'model-range',
        model: `vapour of ${table.name}`,
        argument: 'pressure',
        value: pressure,
        min: 0,
        max: most,
        unit: 'Pa',
      });
    if (pressure === 0) return 0;
    const kept = Math.min(pressure, most);
    if (warm) {
      const c = along(hot, reduced(highest, warmest, temperature));
      const ideal = kept / (gasConstant * temperature * lastDensity);
      return lastDensity * solve((d) => 1 + d * chebyshev(c, 2 * d - 1), 1, ideal);
    }
    const density = dew.density(temperature);
    const atDew = most / (gasConstant * temperature * density) - 1;
    const r = along(cold, reduced(low, high, dew.variable(temperature)));
    const ideal = kept / (gasConstant * temperature * density);
    return density * solve((d) => 1 + d * atDew * (1 + (1 - d) * chebyshev(r, 2 * d - 1)), 1, ideal);
  };
}
