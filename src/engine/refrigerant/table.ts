/**
 * A refrigerant as committed data: Chebyshev series made by tools/refrigerants/make_tables.py, which says how they are
 * fitted. Series in T run over 1/T where they hold ln p, over (1 - T/Tc)^(1/3) for what is saturated, over T for what
 * is dilute vapour.
 */
export interface RefrigerantTable {
  readonly name: string;
  readonly safetyClass: string;
  /** kg/mol */
  readonly molarMass: number;
  /** K, Pa */
  readonly criticalTemperature: number;
  readonly criticalPressure: number;
  /** K, range of saturation */
  readonly lowest: number;
  readonly highest: number;
  readonly zeotropic: boolean;
  /** shares by mass, empty for a single substance */
  readonly composition: string;
  readonly source: { readonly equation: string; readonly viscosity: string };
  /** ln of Pa over 1/T */
  readonly bubblePressure: readonly number[];
  readonly dewPressure: readonly number[];
  /** kg/m3 of liquid at the bubble line; ln of kg/m3 of vapour at the dew line */
  readonly liquidDensity: readonly number[];
  readonly vapourDensity: readonly number[];
  /** J/kg */
  readonly liquidEnthalpy: readonly number[];
  readonly vapourEnthalpy: readonly number[];
  /** ln of J/(kg K) and of Pa s */
  readonly liquidHeat: readonly number[];
  readonly liquidViscosity: readonly number[];
  /** uPa s of dilute vapour, and its c_p/c_v, over T from `lowest` to 100 C or `highest`, whichever is more */
  readonly vapourViscosity: readonly number[];
  readonly heatCapacityRatio: readonly number[];
  /** r of Z = 1 + d (Zdew - 1)(1 + (1 - d) r), d the share of the dew density: rows for T, columns for d */
  readonly vapourShape: readonly (readonly number[])[];
  /** c of Z = 1 + d c above `highest`, d the share of the dew density at `highest` */
  readonly warmShape?: readonly (readonly number[])[];
}
