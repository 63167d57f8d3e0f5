/**
 * A gas at one temperature, resolved to numbers. SI throughout; everything in `engine/` is SI.
 */
export interface GasState {
  readonly name: string;
  /** K */
  readonly temperature: number;
  /** kg/mol */
  readonly molarMass: number;
  /** J/(kg K) = R_u / molarMass */
  readonly specificGasConstant: number;
  /** Pa s */
  readonly viscosity: number;
  /** c_p / c_v in the ideal-gas limit */
  readonly heatCapacityRatio: number;
  /** most probable molecular speed v0 = sqrt(2 R_s T), m/s */
  readonly probableSpeed: number;
}
