import {
  iceHeat,
  latentEvaporation,
  latentSublimation,
  liquidHeat,
  overIce,
  overLiquid,
  TRIPLE_TEMPERATURE,
} from '../../gas/water.ts';
import type { Pool } from '../pool.ts';

/**
 * Water of one state as cubics over small cells of temperature, for the quick way through a dry-out: the logarithm of the
 * vapour pressure, the heat capacity and the latent heat, with their slopes. The cubics meet the formulas and their slopes at
 * the ends of the cells; between them they are within 1e-7 of ln p.
 */
export interface WaterCells {
  /** K, of the first cell */
  readonly from: number;
  readonly cells: number;
  /** for each cell 4 coefficients of ln p, of the heat capacity and of the latent heat */
  readonly coefficients: Float64Array;
}

/** What there is to know of water at a temperature. SI. */
export interface WaterAt {
  pressure: number;
  /** d ln p/dT and the second slope */
  slope: number;
  bend: number;
  heat: number;
  heatSlope: number;
  latent: number;
  latentSlope: number;
}

/** Width of a cell, K. */
const CELL = 0.5;
const PER_CELL = 12;
/** K; a little beyond the triple point on both sides, where a step may look before it is refused. */
const COLDEST_ICE = 60;
const BEYOND = 10;
const HOTTEST_LIQUID = 400;
const DIFFERENCE = 1e-3;

function waterCells(pool: Pick<Pool, 'saturation' | 'heat' | 'latent'>, from: number, to: number): WaterCells {
  const cells = Math.ceil((to - from) / CELL);
  const coefficients = new Float64Array(cells * PER_CELL);
  const slopeOf = (of: (T: number) => number, T: number): number =>
    (of(T + DIFFERENCE) - of(T - DIFFERENCE)) / (2 * DIFFERENCE);
  const kinds: readonly (readonly [(T: number) => number, (T: number) => number])[] = [
    [(T) => Math.log(pool.saturation(T).pressure), (T) => pool.saturation(T).slope],
    [pool.heat, (T) => slopeOf(pool.heat, T)],
    [pool.latent, (T) => slopeOf(pool.latent, T)],
  ];
  for (let i = 0; i < cells; i++) {
    const a = from + i * CELL;
    const b = a + CELL;
    kinds.forEach(([value, slope], kind) => {
      const rise = (value(b) - value(a)) / CELL;
      const d0 = slope(a);
      const d1 = slope(b);
      const cubic = [value(a), d0, (3 * rise - 2 * d0 - d1) / CELL, (d0 + d1 - 2 * rise) / (CELL * CELL)];
      coefficients.set(cubic, i * PER_CELL + kind * 4);
    });
  }
  return { from, cells, coefficients };
}

export const LIQUID_CELLS = waterCells(
  { saturation: overLiquid, heat: liquidHeat, latent: latentEvaporation },
  TRIPLE_TEMPERATURE - BEYOND,
  HOTTEST_LIQUID,
);
export const ICE_CELLS = waterCells(
  { saturation: overIce, heat: iceHeat, latent: latentSublimation },
  COLDEST_ICE,
  TRIPLE_TEMPERATURE + BEYOND,
);

/** Fills `out` at a temperature (K); the end cells serve what is outside. */
export function waterOn(water: WaterCells, temperature: number, out: WaterAt): void {
  const place = (temperature - water.from) / CELL;
  const i = place > 0 ? Math.min(Math.floor(place), water.cells - 1) : 0;
  const t = temperature - water.from - i * CELL;
  const c = water.coefficients;
  const o = i * PER_CELL;
  const p1 = c[o + 1] ?? 0;
  const p2 = c[o + 2] ?? 0;
  const p3 = c[o + 3] ?? 0;
  out.pressure = Math.exp((c[o] ?? 0) + t * (p1 + t * (p2 + t * p3)));
  out.slope = p1 + t * (2 * p2 + 3 * t * p3);
  out.bend = 2 * p2 + 6 * t * p3;
  const h1 = c[o + 5] ?? 0;
  const h2 = c[o + 6] ?? 0;
  const h3 = c[o + 7] ?? 0;
  out.heat = (c[o + 4] ?? 0) + t * (h1 + t * (h2 + t * h3));
  out.heatSlope = h1 + t * (2 * h2 + 3 * t * h3);
  const l1 = c[o + 9] ?? 0;
  const l2 = c[o + 10] ?? 0;
  const l3 = c[o + 11] ?? 0;
  out.latent = (c[o + 8] ?? 0) + t * (l1 + t * (l2 + t * l3));
  out.latentSlope = l1 + t * (2 * l2 + 3 * t * l3);
}
