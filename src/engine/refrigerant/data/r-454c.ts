// Made by tools/refrigerants/make_tables.py with CoolProp 8.0.0: change it there.
import type { RefrigerantTable } from '../table.ts';

export const r454c: RefrigerantTable = {
  name: 'R-454C',
  safetyClass: 'A2L',
  molarMass: 0.09077572,
  criticalTemperature: 360.7934,
  criticalPressure: 4370460,
  lowest: 173.15,
  highest: 355.79,
  zeotropic: true,
  composition: 'R32 21.5 %, R1234yf 78.5 %',
  source: {
    equation: 'mixture of Lemmon-IJT-2022, TillnerRoth-JPCRD-1997; mixing parameters Bell-JPCRD-2023',
    viscosity:
      'estimated from the components: vapour by Wilke 1950; liquid by ln mu = sum x ln mu at one reduced temperature',
  },
  bubblePressure: [
    11.678786, 3.615904, -0.082099, 0.00506, 0.002155, 0.000119, -0.000243, -0.000236, -0.000184, -0.000138, -0.000102,
    -7.4e-5, -5.4e-5, -4e-5, -2.9e-5, -2e-5, -1.4e-5, -9e-6, -4e-6,
  ],
  dewPressure: [
    11.2869, 3.921113, -0.087987, 0.017666, 0.008494, 0.003433, 0.001674, 0.000949, 0.000582, 0.000373, 0.000247,
    0.000167, 0.000115, 8e-5, 5.6e-5, 3.9e-5, 2.7e-5, 1.8e-5, 1.1e-5, 5e-6,
  ],
  liquidDensity: [1016.8387, -375.1865, 19.6671, -2.5944, 0.8163, -0.1941, 0.0465, -0.0625],
  vapourDensity: [
    2.99461, 3.443468, -1.231105, 0.456803, -0.171169, 0.062227, -0.021854, 0.007496, -0.002502, 0.000819, -0.000267,
    8.5e-5, -2.5e-5,
  ],
  liquidEnthalpy: [231209, 136120, -22870, 1200, 6, 85, -30, 17],
  vapourEnthalpy: [387859, 37845, -21251, 1433, 489, -133, 33, -11],
  liquidHeat: [7.58754, 0.65021, 0.22229, 0.06744, 0.02323, 0.00257, 0.00168, -0.00031, -7e-5],
  liquidViscosity: [-8.794, -1.27624, 0.32149, -0.09043, 0.03425, -0.01477, 0.00631, -0.00279, 0.00095],
  vapourViscosity: [10.6817, 3.961, -0.0291, -0.0129],
  heatCapacityRatio: [1.129164, -0.033833, 0.005411, -0.000936, 0.000246, -6.7e-5],
  vapourShape: [
    [0.11552, -0.00215, -0.00049],
    [0.17438, -0.00151, -0.00084],
    [0.05782, -0.00221, -0.00054],
    [0.00018, -0.00195, -0.00025],
  ],
  warmShape: [
    [-0.5977, 0.09018, -0.00062, -0.00037],
    [0.03618, -0.0053, -0.0001, -2e-5],
    [-0.00072, 8e-5, 2e-5],
    [2e-5],
    [0],
    [0],
  ],
};
