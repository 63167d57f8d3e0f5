import type { GasState } from '../gas/state.ts';

/**
 * A passage is one narrows: gas enters on the system side (upstream) and leaves on the pump side (downstream).
 * All lengths in m, pressures in Pa absolute, throughput Q = mass flow x R_s T in Pa m3/s at the gas temperature.
 */
export type Passage =
  | {
      readonly kind: 'tube';
      readonly bore: number;
      readonly length: number;
      /** K, sum of the loss coefficients: entrance, exit velocity head, bends. Default 1.5. */
      readonly loss: number;
      /** absolute wall roughness, m */
      readonly roughness: number;
    }
  | { readonly kind: 'opening'; readonly bore: number; readonly dischargeCoefficient: number }
  | {
      readonly kind: 'sonic';
      /** ISO 6358 sonic conductance C, m3/(s Pa) at 293.15 K, 100 kPa, 1.185 kg/m3 */
      readonly sonicConductance: number;
      readonly criticalRatio: number;
      /** m; used for the rarefied limit, else derived from C */
      readonly bore?: number;
    }
  | {
      readonly kind: 'valve';
      /** flow coefficient Kv, m3/h of water at 1 bar */
      readonly kv: number;
      /** pressure drop ratio x_T at which air chokes (IEC 60534-2-1), default 0.7 */
      readonly pressureDropRatio: number;
    };

/** A passage made ready for one gas state: its tables are built once and shared by every solve. */
export interface PreparedPassage {
  readonly passage: Passage;
  readonly gas: GasState;
  /** bore that sets Knudsen number and velocity, m */
  readonly bore: number;
  /** Upstream pressure (Pa) that drives `throughput` (Pa m3/s, >= 0) against `downstream` (Pa, >= 0). Always exists. */
  upstreamPressure(throughput: number, downstream: number): number;
  /** Throughput (Pa m3/s) from `upstream` to `downstream` (Pa), 0 <= downstream <= upstream. */
  throughput(upstream: number, downstream: number): number;
}
