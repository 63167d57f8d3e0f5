import { preparePassage } from '../../../src/engine/flow/prepare.ts';
import type { GasState } from '../../../src/engine/gas/state.ts';
import type { Rig } from '../../../src/engine/rig/rig.ts';

/**
 * Second implementation of a pull-down, for parts in series behind a pump S0 (1 - pu/p): no curve, no table, no clever
 * variable. At each pressure the pump inlet is found by halving, and V dp/dt is stepped by the classical Runge-Kutta
 * method with steps of a fixed part of the pressure.
 */
export function directFlow(rig: Rig, gas: GasState): (systemPressure: number) => number {
  const passages = rig.parts.map((part) => ({ passage: preparePassage(part.passage, gas), count: part.count }));
  const { speed, ultimate } = rig.pump;
  return (systemPressure) => {
    let low = ultimate;
    let high = systemPressure;
    for (let i = 0; i < 60; i++) {
      const inlet = 0.5 * (low + high);
      const throughput = speed * (inlet - ultimate);
      let pressure = inlet;
      for (const { passage, count } of passages) pressure = passage.upstreamPressure(throughput / count, pressure);
      if (pressure > systemPressure) high = inlet;
      else low = inlet;
    }
    return speed * (0.5 * (low + high) - ultimate);
  };
}

export function directTime(
  flow: (systemPressure: number) => number,
  volume: number,
  p0: number,
  p1: number,
  load: (time: number) => number,
  part = 0.01,
): number {
  const rate = (t: number, p: number): number => (load(t) - flow(p)) / volume;
  let t = 0;
  let p = p0;
  for (let i = 0; i < 1e6; i++) {
    const k1 = rate(t, p);
    const h = (part * p) / Math.abs(k1);
    const k2 = rate(t + h / 2, p + (h / 2) * k1);
    const k3 = rate(t + h / 2, p + (h / 2) * k2);
    const k4 = rate(t + h, p + h * k3);
    const next = p + (h / 6) * (k1 + 2 * k2 + 2 * k3 + k4);
    if (next <= p1) return t + (h * Math.log(p / p1)) / Math.log(p / next);
    t += h;
    p = next;
  }
  return Number.NaN;
}
