// Made by tools/refrigerants/make_tables.py with CoolProp 8.0.0: change it there.
import type { RefrigerantTable } from '../table.ts';

export const r449a: RefrigerantTable = {
  name: 'R-449A',
  safetyClass: 'A1',
  molarMass: 0.0872129,
  criticalTemperature: 355.6353,
  criticalPressure: 4516518,
  lowest: 173.15,
  highest: 350.63,
  zeotropic: true,
  composition: 'R32 24.3 %, R125 24.7 %, R1234yf 25.3 %, R134a 25.7 %',
  source: {
    equation:
      'mixture of Lemmon-IJT-2022, Lemmon-JPCRD-2005, TillnerRoth-JPCRD-1994, TillnerRoth-JPCRD-1997; mixing parameters Bell-JPCRD-2022, Bell-JPCRD-2023, Lemmon-JPCRD-2004',
    viscosity:
      'estimated from the components: vapour by Wilke 1950; liquid by ln mu = sum x ln mu at one reduced temperature',
  },
  bubblePressure: [
    11.657456, 3.652359, -0.080621, 0.007488, 0.003262, 0.000692, 0.00011, -1.2e-5, -4e-5, -4.4e-5, -4.1e-5, -3.5e-5,
    -2.8e-5, -2.1e-5, -1.4e-5, -9e-6, -4e-6,
  ],
  dewPressure: [
    11.339336, 3.933057, -0.106668, 0.016887, 0.007181, 0.002743, 0.001302, 0.00072, 0.000429, 0.000269, 0.000174,
    0.000114, 7.5e-5, 5e-5, 3.4e-5, 2.3e-5, 1.5e-5, 9e-6, 4e-6,
  ],
  liquidDensity: [1085.7951, -390.4386, 21.9159, -3.2382, 0.7807, -0.3638, 0.0637, -0.0028, 0.0144, -0.0126],
  vapourDensity: [
    3.009576, 3.46592, -1.239547, 0.458269, -0.171556, 0.06233, -0.022006, 0.007552, -0.002545, 0.000844, -0.000268,
    8.2e-5, -2.7e-5, 1e-5,
  ],
  liquidEnthalpy: [225705, 132363, -22423, 1432, -70, 110, -32, 8],
  vapourEnthalpy: [391717, 29718, -20215, 1726, 383, -121, 35, -11],
  liquidHeat: [7.58777, 0.63545, 0.23144, 0.06799, 0.02586, 0.00325, 0.00152, -0.00045, 0.00021],
  liquidViscosity: [-8.70988, -1.30434, 0.31268, -0.09652, 0.03678, -0.01529, 0.0064, -0.00272, 0.00096],
  vapourViscosity: [11.2322, 4.1047, -0.039, -0.0093],
  heatCapacityRatio: [1.141918, -0.035897, 0.005168, -0.000758, 0.000164, -4e-5],
  vapourShape: [
    [0.11829, -0.00451, -0.00035],
    [0.17987, -0.00381, -0.00058],
    [0.05923, -0.00251, -0.00033],
    [-0.00157, -0.0025, -0.00014],
  ],
  warmShape: [
    [-0.59545, 0.0927, -0.00146],
    [0.04809, -0.00761],
    [-0.00134, 0.00015],
    [5e-5, 1e-5],
  ],
};
