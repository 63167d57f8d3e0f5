import type { PlanStep } from '../../../src/engine/breaks/plan.ts';
import { preparePassage } from '../../../src/engine/flow/prepare.ts';
import type { GasState } from '../../../src/engine/gas/state.ts';
import type { Rig } from '../../../src/engine/rig/rig.ts';
import { flowOf, mixture, poolEnthalpy, poolTemperature, vapourEnthalpy, vapourPressure } from '../dry/brute-force.ts';

/**
 * Second implementation of a plan of pulls and breaks, for parts in series: small explicit steps of the gases, vapour and
 * the pool's enthalpy. It shares the passages with the engine and nothing else: no curve, no stages, other water.
 */

const R = 8.314462618;
const WATER = 0.018015268;

export interface BruteEvent {
  readonly what: 'pull' | 'break' | 'wait';
  readonly seconds: number;
  readonly air: number;
  readonly water: number;
  readonly temperature: number;
  readonly pressure: number;
}

interface System {
  readonly volume: number;
  readonly water: number;
  readonly heat: number;
  readonly start: number;
}

/** Throughput from a supply into the system: what goes through the parts, system end last, by halving. */
function feedOf(rig: Rig, gas: GasState, supply: number): (system: number) => number {
  const passages = rig.parts.map((part) => preparePassage(part.passage, gas)).reverse();
  const known = new Map<number, number>();
  const exact = (system: number): number => {
    let low = 0;
    let high = 1e5;
    for (let i = 0; i < 60; i++) {
      const middle = 0.5 * (low + high);
      let p = system;
      for (const passage of passages) p = passage.upstreamPressure(middle, p);
      if (p > supply) high = middle;
      else low = middle;
    }
    return 0.5 * (low + high);
  };
  // straight lines over 400 cells of the system's pressure
  const cell = supply / 400;
  const at = (i: number): number => {
    const found = known.get(i) ?? exact(Math.min(i * cell, supply));
    known.set(i, found);
    return found;
  };
  return (system) => {
    const i = Math.floor(system / cell);
    const share = system / cell - i;
    return (1 - share) * at(i) + share * at(i + 1);
  };
}

export function bruteForcePlan(
  rig: Rig,
  air: GasState,
  vapour: GasState,
  system: System,
  steps: readonly PlanStep[],
  part = 3e-3,
): readonly BruteEvent[] {
  const { volume, heat, start } = system;
  const T0 = air.temperature;
  const perPascal = (volume * WATER) / (R * T0);
  let pv = system.water > 0 ? vapourPressure(T0) : 0;
  let pa = start - pv;
  let pn = 0;
  let m = system.water;
  let h = m > 0 ? poolEnthalpy(T0) : 0;
  const events: BruteEvent[] = [];

  /** pool and vapour come to rest after `dt` */
  const settle = (dt: number, UA: number): void => {
    if (m <= 0) return;
    const T = poolTemperature(h);
    const before = m * h + UA * (T0 - T) * dt;
    const off = vapourEnthalpy(T);
    let low = poolEnthalpy(T0 - 120);
    let high = poolEnthalpy(T0 + 1);
    for (let i = 0; i < 50; i++) {
      const middle = 0.5 * (low + high);
      const risen = perPascal * (vapourPressure(poolTemperature(middle)) - pv);
      if ((m - risen) * middle > before - risen * off) high = middle;
      else low = middle;
    }
    const next = 0.5 * (low + high);
    const pressure = vapourPressure(poolTemperature(next));
    const risen = perPascal * (pressure - pv);
    if (risen >= m) {
      pv += m / perPascal;
      m = 0;
      return;
    }
    pv = pressure;
    m -= risen;
    h = next;
  };
  const poolStep = (outKg: number, UA: number): number => {
    if (m <= 0) return Number.POSITIVE_INFINITY;
    const drive = Math.abs(UA * (T0 - poolTemperature(h)) - 2.6e6 * outKg) + 1e-9;
    const byMass = outKg > 0 ? (part * m) / outKg + 1e-3 : Number.POSITIVE_INFINITY;
    return Math.min(byMass, (10 * part * (m * 2000 + 2.6e6 * perPascal * pv * 0.08)) / drive);
  };
  const note = (what: BruteEvent['what'], seconds: number): void => {
    events.push({ what, seconds, air: pa, water: m, temperature: poolTemperature(h), pressure: pa + pn + pv });
  };

  steps.forEach((step, index) => {
    const { pullTo, longestPull = Number.POSITIVE_INFINITY, fill } = step;
    const last = index === steps.length - 1 && fill === undefined;
    const share = pa / (pa + pn);
    const gas = fillGas(air, steps[index - 1]?.fill?.gas, share);
    const flow = flowOf(rig, gas, vapour);
    let t = 0;
    while (t < longestPull) {
      const p = pa + pn + pv;
      if (p <= pullTo && (m <= 0 || !last)) break;
      const y = pv / p;
      const q = flow(p, y);
      const out = (perPascal * y * q) / volume;
      let dt = Math.min(poolStep(out, heat), (20 * part * volume * p) / q, longestPull - t);
      if (m <= 0 || pa + pn > 0.01 * p) dt = Math.min(dt, (part * volume * p) / q);
      // the step that would go past the pressure is cut there
      if (m <= 0 && p - (q * dt) / volume < pullTo) dt = (volume * (p - pullTo)) / q + 1e-12;
      t += dt;
      const kept = 1 - ((1 - y) * q * dt) / (volume * (pa + pn) || 1);
      pa *= Math.max(0, kept);
      pn *= Math.max(0, kept);
      pv -= (y * q * dt) / volume;
      settle(dt, heat);
    }
    note('pull', t);
    if (fill === undefined) return;
    const UA = fill.heat ?? heat;
    const feed = feedOf(rig, fill.gas, fill.supply);
    t = 0;
    while (pa + pn + pv < fill.to) {
      const p = pa + pn + pv;
      const q = feed(p);
      const dt = Math.min(poolStep(0, UA), (part * volume * fill.to) / q, (volume * (fill.to - p)) / q + 1e-12);
      t += dt;
      pn += (q * dt) / volume;
      settle(dt, UA);
    }
    note('break', t);
    if (fill.wait === 0) return;
    t = 0;
    while (t < fill.wait) {
      const dt = Math.min(poolStep(0, UA), fill.wait / 200, fill.wait - t);
      t += dt;
      settle(dt, UA);
    }
    note('wait', t);
  });
  return events;
}

function fillGas(air: GasState, fed: GasState | undefined, share: number): GasState {
  if (fed === undefined) return air;
  return mixture(fed, air, Math.min(1 - 1e-9, Math.max(1e-9, share)));
}
