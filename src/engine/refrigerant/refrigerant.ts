/**
 * A refrigerant as the engine sees it. SI throughout: K, Pa, kg, m3, J; pressures are absolute.
 *
 * Temperatures of saturation run from the table's `lowest` to `highest`; beyond them the functions raise a limit fault.
 * Bubble is where the liquid begins to boil, dew where the last of it is vapour; they are one line for a pure fluid.
 */
export interface Refrigerant {
  /** as the trade writes it: R-410A */
  readonly name: string;
  /** ASHRAE 34 / ISO 817 safety class: A1, A2L, A3, B2L */
  readonly safetyClass: string;
  /** kg/mol */
  readonly molarMass: number;
  /** K, Pa */
  readonly criticalTemperature: number;
  readonly criticalPressure: number;
  /** K, range of the saturation table */
  readonly lowest: number;
  readonly highest: number;
  /** K, to which the functions of vapour go (density, viscosity, heat capacity ratio): 100 C or `highest`, what is more */
  readonly warmest: number;
  /** shares by mass, empty for a single substance */
  readonly composition: string;
  /** where the equation of state and the viscosities come from */
  readonly source: { readonly equation: string; readonly viscosity: string };
  /** true where bubble and dew differ enough to matter when vapour is drawn off or charged */
  readonly zeotropic: boolean;
  /** Pa at a temperature (K) */
  bubblePressure(temperature: number): number;
  dewPressure(temperature: number): number;
  /** K at a pressure (Pa) */
  bubbleTemperature(pressure: number): number;
  dewTemperature(pressure: number): number;
  /** kg/m3 of liquid at the bubble line, of vapour at the dew line, at a temperature (K) */
  liquidDensity(temperature: number): number;
  saturatedVapourDensity(temperature: number): number;
  /**
   * kg/m3 of vapour at a temperature (K) and a pressure (Pa) at or below the dew pressure (real gas); above `highest` at
   * or below the dew pressure there. A pressure above by no more than 1e-6 of itself counts as the dew pressure.
   */
  vapourDensity(temperature: number, pressure: number): number;
  /** J/kg from bubble to dew at a temperature (K) */
  latentHeat(temperature: number): number;
  /** J/(kg K) of saturated liquid */
  liquidHeat(temperature: number): number;
  /** J/kg of liquid at the bubble line and of vapour at the dew line: liquid at 0 C has 200 kJ/kg */
  liquidEnthalpy(temperature: number): number;
  vapourEnthalpy(temperature: number): number;
  /** Pa s of dilute vapour and of saturated liquid */
  vapourViscosity(temperature: number): number;
  liquidViscosity(temperature: number): number;
  /** c_p/c_v of the dilute vapour (ideal-gas limit) */
  heatCapacityRatio(temperature: number): number;
}
