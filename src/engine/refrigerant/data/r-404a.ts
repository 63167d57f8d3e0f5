// Made by tools/refrigerants/make_tables.py with CoolProp 8.0.0: change it there.
import type { RefrigerantTable } from '../table.ts';

export const r404a: RefrigerantTable = {
  name: 'R-404A',
  safetyClass: 'A1',
  molarMass: 0.0976038,
  criticalTemperature: 345.27,
  criticalPressure: 3734800,
  lowest: 200.15,
  highest: 340.27,
  zeotropic: false,
  composition: 'R125 44 %, R143a 52 %, R134a 4 %',
  source: {
    equation: 'Lemmon-IJT-2003 (pseudo-pure)',
    viscosity: 'Geller-PURDUE-2000',
  },
  bubblePressure: [
    12.560476, 2.485801, -0.030746, 0.008313, 0.002477, 0.000725, 0.000276, 0.000134, 7.2e-5, 4e-5, 2.2e-5, 1.2e-5,
    5e-6,
  ],
  dewPressure: [
    12.532214, 2.514429, -0.03575, 0.00933, 0.002526, 0.000773, 0.000315, 0.000163, 9.3e-5, 5.4e-5, 3.2e-5, 1.9e-5,
    1e-5, 5e-6,
  ],
  liquidDensity: [1036.0744, -331.0163, 16.9331, -1.3766, 0.8094, -0.1854, -0.0057, -0.0227, 0.0086],
  vapourDensity: [
    3.685792, 2.435164, -0.696755, 0.210477, -0.06624, 0.020438, -0.0061, 0.0018, -0.000514, 0.000146, -3.8e-5,
  ],
  liquidEnthalpy: [227034, 103157, -16782, 784, 17, 26],
  vapourEnthalpy: [362618, 22984, -15295, 1254, 221, -61, 13],
  liquidHeat: [7.53485, 0.57271, 0.18038, 0.05427, 0.01768, 0.00354, 0.0017, -3e-5, 0.00012],
  liquidViscosity: [-8.86514, -0.98289, 0.179, -0.02799, -0.00219, 0.00125],
  vapourViscosity: [11.7663, 3.3254, 0.011],
  heatCapacityRatio: [1.116251, -0.0256, 0.003645, -0.00048, 6.6e-5],
  vapourShape: [
    [0.14534, -0.0087, 0.00021],
    [0.17512, -0.00875, 0.00039],
    [0.05807, -0.00213, -6e-5],
    [-0.00159, -0.00244, -7e-5],
  ],
  warmShape: [
    [-0.60214, 0.1011, -0.0028],
    [0.07034, -0.01143, 0.00043],
    [-0.00283, 0.00029, -4e-5],
    [0.00015, 4e-5, 1e-5],
  ],
};
