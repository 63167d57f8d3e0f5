// Made by tools/refrigerants/make_tables.py with CoolProp 8.0.0: change it there.
import type { RefrigerantTable } from '../table.ts';

export const r513a: RefrigerantTable = {
  name: 'R-513A',
  safetyClass: 'A1',
  molarMass: 0.10842622,
  criticalTemperature: 368.5607,
  criticalPressure: 3655094,
  lowest: 173.15,
  highest: 363.56,
  zeotropic: false,
  composition: 'R1234yf 56 %, R134a 44 %',
  source: {
    equation: 'mixture of Lemmon-IJT-2022, TillnerRoth-JPCRD-1994; mixing parameters Bell-JPCRD-2022',
    viscosity:
      'estimated from the components: vapour by Wilke 1950; liquid by ln mu = sum x ln mu at one reduced temperature',
  },
  bubblePressure: [
    10.98782, 4.108998, -0.104646, 0.010169, 0.005634, 0.001835, 0.000705, 0.000342, 0.000183, 0.000103, 6.1e-5, 3.7e-5,
    2.3e-5, 1.4e-5, 8e-6, 4e-6,
  ],
  dewPressure: [
    10.966069, 4.142309, -0.119068, 0.012498, 0.005804, 0.001873, 0.000729, 0.000352, 0.000187, 0.000106, 6.3e-5,
    3.9e-5, 2.4e-5, 1.5e-5, 8e-6, 4e-6,
  ],
  liquidDensity: [1087.3457, -385.3473, 24.3913, -2.7121, 1.0724, -0.254, 0.0524, -0.0339],
  vapourDensity: [
    2.954021, 3.608757, -1.329254, 0.505925, -0.193757, 0.072246, -0.026015, 0.009188, -0.003135, 0.001049, -0.000346,
    0.000114, -3.8e-5, 1.2e-5,
  ],
  liquidEnthalpy: [235785, 132478, -23398, 927, 129, 34, -16, 10],
  vapourEnthalpy: [377715, 43855, -21355, 1220, 579, -183, 53, -19],
  liquidHeat: [7.47948, 0.57957, 0.18083, 0.06606, 0.02259, 0.00463, 0.00242, 6e-5, 0.00016],
  liquidViscosity: [
    -8.6272, -1.40809, 0.36078, -0.12481, 0.05286, -0.02389, 0.01069, -0.00505, 0.0023, -0.00107, 0.00039,
  ],
  vapourViscosity: [10.5132, 3.8275, -0.0299, -0.0066],
  heatCapacityRatio: [1.108614, -0.029845, 0.005404, -0.001052, 0.000246, -5.9e-5],
  vapourShape: [
    [0.11279, -0.00139, -0.00047],
    [0.17245, -0.00021, -0.00084],
    [0.06252, -0.00053, -0.00059],
    [8e-5, -0.00225, -0.00029],
  ],
  warmShape: [
    [-0.63725, 0.09545, -0.00018, -0.00036],
    [0.0215, -0.00288, -0.00013, -1e-5],
    [-0.00025, 1e-5],
    [0],
    [0],
    [0],
  ],
};
