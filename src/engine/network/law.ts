/**
 * What drives gas along a line, per length: Q = (psi(p1) - psi(p2))/dx with psi' = K(p), K the conductance of the line
 * times its length. SI: K in m4/s, psi in Pa m4/s, Q in Pa m3/s.
 */
export interface LineLaw {
  /** cross-section, m2 */
  readonly area: number;
  potential(pressure: number): number;
  conductivity(pressure: number): number;
  /**
   * Takes from the flow of a segment what turbulence and inertia cost; absent: nothing. `laminar` is the flow by the
   * potential from `upper` to `lower` (Pa) over `length` (m).
   */
  restrain?(laminar: number, upper: number, lower: number, length: number, out: SegmentFlow): void;
}

/** Flow of a segment, and its slopes as parts of those of the laminar flow, K/length. */
export interface SegmentFlow {
  flow: number;
  upperShare: number;
  lowerShare: number;
}

/** A line whose conductance does not depend on the pressure: K and cross-section as given. */
export function constantLaw(conductivity: number, area: number): LineLaw {
  return { area, potential: (pressure) => conductivity * pressure, conductivity: () => conductivity };
}
