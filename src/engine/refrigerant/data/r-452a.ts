// Made by tools/refrigerants/make_tables.py with CoolProp 8.0.0: change it there.
import type { RefrigerantTable } from '../table.ts';

export const r452a: RefrigerantTable = {
  name: 'R-452A',
  safetyClass: 'A1',
  molarMass: 0.10351091,
  criticalTemperature: 348.249,
  criticalPressure: 3983777,
  lowest: 173.15,
  highest: 343.24,
  zeotropic: true,
  composition: 'R32 11 %, R125 59 %, R1234yf 30 %',
  source: {
    equation:
      'mixture of Lemmon-IJT-2022, Lemmon-JPCRD-2005, TillnerRoth-JPCRD-1997; mixing parameters Bell-JPCRD-2023, Lemmon-JPCRD-2004',
    viscosity:
      'estimated from the components: vapour by Wilke 1950; liquid by ln mu = sum x ln mu at one reduced temperature',
  },
  bubblePressure: [
    11.625785, 3.560672, -0.086423, 0.007592, 0.003208, 0.000753, 0.00016, 2.4e-5, -1e-5, -1.8e-5, -1.9e-5, -1.9e-5,
    -1.7e-5, -1.3e-5, -9e-6, -4e-6,
  ],
  dewPressure: [
    11.433014, 3.697679, -0.083705, 0.014287, 0.006439, 0.002406, 0.001093, 0.000592, 0.000356, 0.000228, 0.000149,
    9.7e-5, 6.2e-5, 4e-5, 2.6e-5, 1.7e-5, 1e-5, 5e-6,
  ],
  liquidDensity: [1138.1956, -397.0164, 22.1287, -2.7062, 0.6491, -0.3679, 0.0198, 0.0125, 0.008, -0.0093],
  vapourDensity: [
    3.174598, 3.288504, -1.143627, 0.40982, -0.149045, 0.052544, -0.017832, 0.005869, -0.001945, 0.000639, -0.00019,
    4.9e-5, -1.2e-5,
  ],
  liquidEnthalpy: [216843, 116667, -19826, 998, 46, 65, -15],
  vapourEnthalpy: [354686, 32931, -18077, 1294, 402, -111, 18, -4],
  liquidHeat: [7.47978, 0.6007, 0.20176, 0.06624, 0.02386, 0.00408, 0.00155, -0.00021, 0.00027],
  liquidViscosity: [-8.66581, -1.29798, 0.29551, -0.08863, 0.03261, -0.01303, 0.00529, -0.00226, 0.00081],
  vapourViscosity: [11.3713, 4.163, -0.055, -0.0119, 0.0021],
  heatCapacityRatio: [1.119588, -0.030541, 0.004882, -0.000789, 0.000174, -4e-5],
  vapourShape: [
    [0.10684, -0.00041, -0.00058],
    [0.16137, 0.00065, -0.00089],
    [0.05456, -0.00127, -0.00036],
    [0.00107, -0.00155, -5e-5],
    [-0.00129, 3e-5, 2e-5],
  ],
  warmShape: [
    [-0.5613, 0.07935, -0.00021, -0.00028],
    [0.06087, -0.0076, -0.00043, 9e-5],
    [-0.00221, 0.00019, 3e-5],
    [0.0001, 2e-5],
    [-1e-5],
    [0],
  ],
};
