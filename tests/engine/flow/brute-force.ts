/**
 * A second implementation of the tube, by small steps of the local equation and with its own formulas as they are
 * printed. Shares no code with the engine. SI, pressures in Pa.
 *
 *   dq/ds (1 - B w/q) = B (f/D) ((delta/4)/G_P) L_eff,  q = p^2,  B = G^2 R_s T,  w = delta/(1 + delta)
 */
export interface Air {
  readonly viscosity: number;
  /** R_s T, J/kg */
  readonly rt: number;
}

export interface BruteTube {
  readonly bore: number;
  readonly length: number;
  readonly loss: number;
  readonly roughness: number;
}

export function poiseuilleFlow(d: number): number {
  const molecular = (8 / (3 * Math.sqrt(Math.PI))) * ((1 + 0.04 * d ** 0.7 * Math.log(d)) / (1 + 0.78 * d ** 0.8));
  return molecular + (d / 4 + 1.018) * (d / (1 + d));
}

/** Berman's formula as printed: good to 1e-8 for L/a up to some thousands. */
export function berman(l: number): number {
  const s = Math.sqrt(l * l + 4);
  const top = ((8 - l * l) * s + l ** 3 - 16) ** 2;
  return 1 + (l * l) / 4 - (l / 4) * s - top / (72 * l * s - 288 * Math.log(l + s) + 288 * Math.log(2));
}

function darcy(reynolds: number, e: number): number {
  if (reynolds < 1) return 64 / reynolds;
  const a = (2.457 * Math.log(1 / ((7 / reynolds) ** 0.9 + 0.27 * e))) ** 16;
  const b = (37530 / reynolds) ** 16;
  return 8 * ((8 / reynolds) ** 12 + 1 / (a + b) ** 1.5) ** (1 / 12);
}

/** Upstream pressure that drives `throughput` against `downstream`; `steps` a factor e of pressure. */
export function bruteUpstream(tube: BruteTube, gas: Air, throughput: number, downstream: number, steps = 600): number {
  const a = tube.bore / 2;
  const flux = throughput / gas.rt / (Math.PI * a * a);
  const b = flux * flux * gas.rt;
  const unit = (gas.viscosity * Math.sqrt(2 * gas.rt)) / a;
  const f = darcy((flux * tube.bore) / gas.viscosity, tube.roughness / tube.bore);
  const alpha = berman(tube.length / a);
  const weight = (p: number): number => p / unit / (1 + p / unit);
  // choking: by bisection, not by its closed form
  let low = 0;
  let high = 2 * Math.sqrt(b) + 1e-300;
  for (let i = 0; i < 200; i++) {
    const p = 0.5 * (low + high);
    if (p * p < b * weight(p)) low = p;
    else high = p;
  }
  const exit = Math.max(downstream, high);
  /** ds/dln p: share of the length per e-fold of pressure */
  const share = (x: number): number => {
    const p = Math.exp(x);
    const d = p / unit;
    const m = 1 / (1 + d);
    const effective = (m * ((8 * a) / 3)) / alpha + (1 - m) * (tube.length + (3 * Math.PI * a) / 8);
    const slope = (b * (f / tube.bore) * (d / 4) * effective) / poiseuilleFlow(d);
    return (2 * p * p * (1 - (b * weight(p)) / (p * p))) / slope;
  };
  let x = Math.log(exit);
  let s = 0;
  let step = 1 / steps;
  // where a step would take more than a hundredth of the tube, shorter steps; the last one is cut to end at s = 1
  for (;;) {
    const part = (step / 6) * (share(x) + 4 * share(x + step / 2) + share(x + step));
    if (part > 0.01 && step > 1e-13) {
      step /= 2;
      continue;
    }
    if (s + part >= 1) {
      x += step * ((1 - s) / part);
      break;
    }
    s += part;
    x += step;
    if (part < 0.002 && step < 1 / steps) step *= 2;
  }
  const inner = Math.exp(x);
  return Math.sqrt(inner * inner + tube.loss * b * weight(inner));
}

/** The same by Runge-Kutta of q along the tube, for exits that are not choked. */
export function bruteMarch(tube: BruteTube, gas: Air, throughput: number, downstream: number, steps = 4000): number {
  const a = tube.bore / 2;
  const flux = throughput / gas.rt / (Math.PI * a * a);
  const b = flux * flux * gas.rt;
  const unit = (gas.viscosity * Math.sqrt(2 * gas.rt)) / a;
  const f = darcy((flux * tube.bore) / gas.viscosity, tube.roughness / tube.bore);
  const alpha = berman(tube.length / a);
  const rate = (q: number): number => {
    const d = Math.sqrt(q) / unit;
    const m = 1 / (1 + d);
    const effective = (m * ((8 * a) / 3)) / alpha + (1 - m) * (tube.length + (3 * Math.PI * a) / 8);
    const pull = (b * (f / tube.bore) * (d / 4) * effective) / poiseuilleFlow(d);
    return pull / (1 - (b * d) / (1 + d) / q);
  };
  let q = downstream * downstream;
  const h = 1 / steps;
  for (let i = 0; i < steps; i++) {
    const k1 = rate(q);
    const k2 = rate(q + (h / 2) * k1);
    const k3 = rate(q + (h / 2) * k2);
    const k4 = rate(q + h * k3);
    q += (h / 6) * (k1 + 2 * k2 + 2 * k3 + k4);
  }
  const d = Math.sqrt(q) / unit;
  return Math.sqrt(q + (tube.loss * b * d) / (1 + d));
}
