// Made by tools/refrigerants/make_tables.py with CoolProp 8.0.0: change it there.
import type { RefrigerantTable } from '../table.ts';

export const r290: RefrigerantTable = {
  name: 'R-290',
  safetyClass: 'A3',
  molarMass: 0.04409562,
  criticalTemperature: 369.89,
  criticalPressure: 4251165,
  lowest: 173.15,
  highest: 364.89,
  zeotropic: false,
  composition: '',
  source: {
    equation: 'Lemmon-JCED-2009',
    viscosity: 'Vogel-JPCRD-1998',
  },
  bubblePressure: [
    11.626698, 3.586509, -0.060269, 0.011527, 0.005023, 0.001613, 0.00066, 0.000326, 0.000169, 9.1e-5, 5e-5, 2.8e-5,
    1.6e-5, 9e-6, 4e-6,
  ],
  dewPressure: [
    11.626698, 3.586509, -0.060269, 0.011527, 0.005023, 0.001613, 0.00066, 0.000326, 0.000169, 9.1e-5, 5e-5, 2.8e-5,
    1.6e-5, 9e-6, 4e-6,
  ],
  liquidDensity: [470.6721, -162.088, 9.6571, -0.9919, 0.2597, -0.0574, 0.0218],
  vapourDensity: [
    2.513337, 3.159351, -1.116012, 0.413613, -0.155195, 0.056827, -0.020366, 0.007107, -0.002375, 0.000783, -0.000265,
    8.2e-5, -1.8e-5,
  ],
  liquidEnthalpy: [275748, 257713, -41111, 604, 312, 139, -54],
  vapourEnthalpy: [574762, 75137, -41393, 2459, 856, -174, 54, -20],
  liquidHeat: [8.16744, 0.6857, 0.19586, 0.07162, 0.02539, 0.00484, 0.00134, 0.00029],
  liquidViscosity: [-9.23469, -1.1484, 0.22189, -0.06964, 0.02206, -0.00664, 0.00233, -0.00081],
  vapourViscosity: [7.4811, 2.6505, -0.0078, -0.0054],
  heatCapacityRatio: [1.142532, -0.042973, 0.004429, 8e-6, -3.1e-5, -2e-5],
  vapourShape: [
    [0.10429, 0.00125],
    [0.15684, 0.00275],
    [0.0598, 0.00306],
  ],
  warmShape: [[-0.63389, 0.08723, 0.0009], [0.01636, -0.00131, -0.00014], [-0.00017, -3e-5, -1e-5], [0]],
};
