/**
 * What drives gas along a line, per length: Q = (psi(p1) - psi(p2))/dx with psi' = K(p), K the conductance of the line
 * times its length. SI: K in m4/s, psi in Pa m4/s, Q in Pa m3/s.
 */
export interface LineLaw {
  /** cross-section, m2 */
  readonly area: number;
  /** Fills `out` with what the line is at a pressure (Pa). */
  at(pressure: number, out: LinePoint): void;
  /**
   * Takes from the flow of a segment what turbulence and inertia cost; absent: nothing. `laminar` is the flow by the
   * potential from `upper` to `lower` over `length` (m); `near` a flow to begin the search from, 0 where none is known: it
   * changes nothing of the answer.
   */
  restrain?(laminar: number, upper: LinePoint, lower: LinePoint, length: number, near: number, out: SegmentFlow): void;
}

/** What a line is at one pressure. */
export interface LinePoint {
  /** Pa */
  pressure: number;
  /** psi, Pa m4/s */
  potential: number;
  /** K, m4/s */
  conductivity: number;
  /** what the law keeps for `restrain`, in its own units */
  rarefaction: number;
  push: number;
}

export function noPoint(): LinePoint {
  const n = Number.NaN;
  return { pressure: n, potential: n, conductivity: n, rarefaction: n, push: n };
}

/** Flow of a segment, and its slopes as parts of those of the laminar flow, K/length. */
export interface SegmentFlow {
  flow: number;
  upperShare: number;
  lowerShare: number;
}

/** A line whose conductance does not depend on the pressure: K and cross-section as given. */
export function constantLaw(conductivity: number, area: number): LineLaw {
  return {
    area,
    at(pressure, out) {
      out.pressure = pressure;
      out.potential = conductivity * pressure;
      out.conductivity = conductivity;
    },
  };
}
