// Made by tools/refrigerants/make_tables.py with CoolProp 8.0.0: change it there.
import type { RefrigerantTable } from '../table.ts';

export const r454b: RefrigerantTable = {
  name: 'R-454B',
  safetyClass: 'A2L',
  molarMass: 0.06261363,
  criticalTemperature: 351.4302,
  criticalPressure: 5304109,
  lowest: 173.15,
  highest: 346.43,
  zeotropic: true,
  composition: 'R32 68.9 %, R1234yf 31.1 %',
  source: {
    equation: 'mixture of Lemmon-IJT-2022, TillnerRoth-JPCRD-1997; mixing parameters Bell-JPCRD-2023',
    viscosity:
      'estimated from the components: vapour by Wilke 1950; liquid by ln mu = sum x ln mu at one reduced temperature',
  },
  bubblePressure: [
    11.861831, 3.577911, -0.069172, 0.009782, 0.004059, 0.001128, 0.000373, 0.000157, 7.4e-5, 3.6e-5, 1.7e-5, 7e-6,
  ],
  dewPressure: [
    11.800038, 3.617771, -0.072271, 0.015481, 0.005354, 0.002087, 0.000861, 0.000447, 0.000257, 0.000153, 9.6e-5,
    6.1e-5, 4e-5, 2.6e-5, 1.6e-5, 1e-5, 5e-6,
  ],
  liquidDensity: [989.424, -356.0735, 20.6509, -2.0046, 0.6727, -0.0476, 0.0682, -0.0251],
  vapourDensity: [
    3.053178, 3.256121, -1.11255, 0.398845, -0.145783, 0.052248, -0.018256, 0.00631, -0.00216, 0.000753, -0.000268,
    9.7e-5, -3.5e-5, 1.2e-5,
  ],
  liquidEnthalpy: [225393, 148301, -24077, 1752, -207, 103, -35],
  vapourEnthalpy: [445054, 12231, -21966, 2663, 195, -86, 16, -5],
  liquidHeat: [7.74278, 0.67332, 0.24687, 0.06298, 0.02095, 0.00229, 0.00116, 0.00011],
  liquidViscosity: [-8.86399, -1.20273, 0.29192, -0.07681, 0.02661, -0.01074, 0.00447, -0.00186, 0.00059],
  vapourViscosity: [11.2866, 4.1905, -0.0273, -0.0137],
  heatCapacityRatio: [1.200925, -0.045802, 0.003721, -6.7e-5, 8.4e-5, -4.5e-5],
  vapourShape: [
    [0.14606, -0.01301, 0.00023],
    [0.21979, -0.01473, 0.0004],
    [0.061, -0.00873, 0.00021],
    [-0.00398, -0.00349, 3e-5],
  ],
  warmShape: [
    [-0.63998, 0.11993, -0.00536],
    [0.05974, -0.01279, 0.00063],
    [-0.00192, 0.00039],
    [8e-5, 1e-5],
  ],
};
