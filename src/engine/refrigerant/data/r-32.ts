// Made by tools/refrigerants/make_tables.py with CoolProp 8.0.0: change it there.
import type { RefrigerantTable } from '../table.ts';

export const r32: RefrigerantTable = {
  name: 'R-32',
  safetyClass: 'A2L',
  molarMass: 0.052024,
  criticalTemperature: 351.255,
  criticalPressure: 5782645,
  lowest: 173.15,
  highest: 346.25,
  zeotropic: false,
  composition: '',
  source: {
    equation: 'TillnerRoth-JPCRD-1997',
    viscosity: 'vapour: kinetic theory, sizes of Huber-IECR-2003; liquid Bell-PURDUE-2016-ETA',
  },
  bubblePressure: [
    11.913313, 3.596249, -0.063278, 0.011347, 0.004866, 0.001522, 0.000578, 0.000273, 0.000144, 8e-5, 4.5e-5, 2.6e-5,
    1.5e-5, 9e-6, 4e-6,
  ],
  dewPressure: [
    11.913313, 3.596249, -0.063278, 0.011347, 0.004866, 0.001522, 0.000578, 0.000273, 0.000144, 8e-5, 4.5e-5, 2.6e-5,
    1.5e-5, 9e-6, 4e-6,
  ],
  liquidDensity: [966.5928, -348.0374, 21.9473, -1.8457, 0.55, 0.0262, 0.0653, -0.012],
  vapourDensity: [
    2.989324, 3.25878, -1.102864, 0.389571, -0.140873, 0.049428, -0.01679, 0.005545, -0.00178, 0.000569, -0.000181,
    5.6e-5, -1.6e-5,
  ],
  liquidEnthalpy: [227294, 160227, -25787, 2042, -276, 98, -33],
  vapourEnthalpy: [492454, -2725, -23427, 3652, 94, -80, 14, -3],
  liquidHeat: [7.82467, 0.67947, 0.25141, 0.06117, 0.01859, 0.00209, 0.00061, 0.00013],
  liquidViscosity: [-8.88108, -1.19055, 0.28818, -0.07513, 0.02546, -0.01012, 0.0042, -0.00171, 0.00052],
  vapourViscosity: [11.5132, 4.2775, -0.026, -0.0141],
  heatCapacityRatio: [1.254237, -0.051715, 0.000512, 0.000992, -5e-5, -4e-5],
  vapourShape: [
    [0.16079, -0.01825, 0.00056],
    [0.24065, -0.02291, 0.00133],
    [0.06363, -0.01219, 0.00056],
    [-0.00582, -0.00448, 0.00029],
  ],
  warmShape: [
    [-0.66693, 0.1367, -0.00828, 0.00042],
    [0.06238, -0.01516, 0.00102, -7e-5],
    [-0.00206, 0.00047, -2e-5],
    [9e-5, 1e-5, 1e-5],
    [-1e-5],
    [0],
  ],
};
