import { dryOut, type WetSystem } from '../../src/engine/dry/dry-out.ts';
import { POOLS } from '../../src/engine/dry/pool.ts';
import { mixtureThroughput, rigSurface } from '../../src/engine/dry/rig-surface.ts';
import { gasState } from '../../src/engine/gas/gas.ts';
import { saturationPressure, VAPOUR_GAS_CONSTANT } from '../../src/engine/gas/water.ts';
import type { Derivative } from '../../src/numerics/ode.ts';
import { integrateStiff } from '../../src/numerics/rodas.ts';
import { AMBIENT, type BenchRow, EIGHT_PARTS, GAS, Solver, TARGET, timed } from './common.ts';

const WET_UNITS = 2000;
const WET_PART = 50;
const WET_REPEATS = 25;
const WET_TOLERANCE = 1e-4;
/** The part of the dry-out that the peers are given: up to just before the pool is gone, where no stage ends. */
const NEARLY = 0.99;

export function benchWet(rows: BenchRow[]): void {
  const surface = rigSurface(EIGHT_PARTS, GAS, gasState('water vapour', GAS.temperature));
  const units = Array.from({ length: WET_UNITS }, (_, i): WetSystem => {
    const [volume, water, heat] = [0.002 + (i % 97) * 7e-4, 5e-4 * (1 + (i % 41)), 0.5 * (1 + (i % 13))];
    return { volume, water, heat, start: AMBIENT, target: TARGET, quick: true };
  });
  // what has been worked out is kept: each run has units that differ in the tenth digit
  let run = 0;
  const another = (unit: WetSystem): WetSystem => ({ ...unit, volume: unit.volume * (1 + 1e-10 * run) });
  // in parts of a few milliseconds, so that the best of each is not what else the machine does
  const sheet = { best: 0, middle: 0 };
  for (let from = 0; from < WET_UNITS; from += WET_PART) {
    const part = units.slice(from, from + WET_PART);
    const { best, middle } = timed(() => {
      run += 1;
      for (const unit of part) dryOut(surface, another(unit));
    }, WET_REPEATS);
    sheet.best += best;
    sheet.middle += middle;
  }
  const perSecond = (ms: number): string => Math.round((WET_UNITS * 1e3) / ms).toLocaleString('en');
  rows.push([
    `wet units a second through a shared surface (${WET_UNITS} units, 0.5 to 20 g of water, with and without freezing)`,
    `${perSecond(sheet.best)} (middle ${perSecond(sheet.middle)})`,
    'at least 20,000',
  ]);
  const building = timed(() => {
    rigSurface(EIGHT_PARTS, GAS, gasState('water vapour', GAS.temperature));
  });
  rows.push(['building that surface', `${building.best.toFixed(1)} ms`, '']);

  // one unit that does not freeze, by general solvers on the same equations and surface
  const unit: WetSystem = { volume: 0.02, water: 5e-3, heat: 5, start: AMBIENT, target: TARGET, quick: true };
  const fine = dryOut(surface, { ...unit, quick: false });
  const own = timed(() => {
    for (let i = 0; i < WET_PART; i++) {
      run += 1;
      dryOut(surface, another(unit));
    }
  }, WET_REPEATS);
  const oneMs = own.best / WET_PART;
  const ambient = GAS.temperature;
  const perThroughput = 1 / (VAPOUR_GAS_CONSTANT * ambient);
  const rates: Derivative = (_, y, out) => {
    const [gas = 0, temperature = 0, mass = 0] = y;
    const { pressure: vapour, slope } = POOLS.liquid.saturation(temperature);
    const latent = POOLS.liquid.latent(temperature);
    const throughput = mixtureThroughput(surface, gas + vapour, vapour / (gas + vapour));
    const off = (vapour / (gas + vapour)) * throughput * perThroughput;
    const filling = unit.volume * perThroughput * vapour * slope;
    const held = mass * POOLS.liquid.heat(temperature) + latent * filling;
    out[0] = ((vapour / (gas + vapour) - 1) * throughput) / unit.volume;
    out[1] = (unit.heat * (ambient - temperature) - latent * off) / held;
    out[2] = -off - filling * out[1];
  };
  const start = [AMBIENT - saturationPressure(ambient), ambient, unit.water];
  const absolute = [100, 10, unit.water].map((size) => WET_TOLERANCE * size);
  const end = NEARLY * fine.dry;
  const stiff = (): number =>
    integrateStiff(rates, 0, start, end, { relative: WET_TOLERANCE, absolute, mostSteps: 1e6 }).evaluations;
  const slopes = new Float64Array(3);
  const extrapolating = (): number => {
    const solver = new Solver(3);
    solver.absoluteTolerance = absolute;
    solver.relativeTolerance = WET_TOLERANCE;
    solver.maxSteps = 1e6;
    const f = (x: number, y: number[]): number[] => {
      rates(x, Float64Array.from(y), slopes);
      return Array.from(slopes);
    };
    return solver.solve(f, 0, start, end).nEval;
  };
  const ratio = (ms: number): string => `${(ms / oneMs).toFixed(1)} times`;
  rows.push(['one wet unit to dry and target, the quick way', `${(oneMs * 1e3).toFixed(1)} us`, 'under 50 us']);
  const general = `up to ${NEARLY} of its time until dry, tolerance ${WET_TOLERANCE}`;
  const byStiff = timed(stiff, WET_REPEATS);
  rows.push([
    `the same ${general}, by our general stiff solver (RODAS3, numeric slopes, ${stiff()} evaluations)`,
    ratio(byStiff.best),
    'ratio',
  ]);
  rows.push([
    `the same ${general}, by odex (${extrapolating()} evaluations)`,
    ratio(timed(extrapolating, WET_REPEATS).best),
    'ratio',
  ]);
  const marched = timed(() => {
    dryOut(surface, { ...unit, quick: false });
  });
  rows.push(['the same to dry and target, by fine steps', ratio(marched.best), '']);
}
