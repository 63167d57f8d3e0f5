// Made by tools/refrigerants/make_tables.py with CoolProp 8.0.0: change it there.
import type { RefrigerantTable } from '../table.ts';

export const r1234yf: RefrigerantTable = {
  name: 'R-1234yf',
  safetyClass: 'A2L',
  molarMass: 0.1140416,
  criticalTemperature: 367.85,
  criticalPressure: 3384374,
  lowest: 173.15,
  highest: 362.84,
  zeotropic: false,
  composition: '',
  source: {
    equation: 'Lemmon-IJT-2022',
    viscosity: 'vapour: kinetic theory, sizes of BELL-PERSONAL-2015; liquid Bell-PURDUE-2016-ETA',
  },
  bubblePressure: [
    10.994207, 4.019993, -0.100595, 0.011786, 0.005773, 0.001877, 0.000704, 0.00033, 0.000178, 0.000104, 6.4e-5, 4e-5,
    2.6e-5, 1.6e-5, 9e-6, 4e-6,
  ],
  dewPressure: [
    10.994207, 4.019993, -0.100595, 0.011786, 0.005773, 0.001877, 0.000704, 0.00033, 0.000178, 0.000104, 6.4e-5, 4e-5,
    2.6e-5, 1.6e-5, 9e-6, 4e-6,
  ],
  liquidDensity: [1048.6868, -370.0819, 23.7672, -2.2949, 1.1079, -0.2365, 0.0632, -0.0718],
  vapourDensity: [
    2.988285, 3.51858, -1.277569, 0.481192, -0.182627, 0.067551, -0.023918, 0.008356, -0.002824, 0.00094, -0.00031,
    0.000103, -3.3e-5, 1e-5,
  ],
  liquidEnthalpy: [234637, 129571, -22896, 701, 175, 30, -19, 15],
  vapourEnthalpy: [366393, 47776, -21438, 1038, 623, -180, 41, -16],
  liquidHeat: [7.45133, 0.56761, 0.1662, 0.06374, 0.0222, 0.00445, 0.00276, 0.00016],
  liquidViscosity: [-8.73658, -1.33647, 0.3468, -0.10283, 0.04148, -0.01872, 0.00821, -0.00386, 0.00153, -0.00056],
  vapourViscosity: [10.2354, 3.793, -0.0296, -0.0123],
  heatCapacityRatio: [1.099782, -0.027556, 0.005173, -0.001047, 0.000275, -7.6e-5, 1.8e-5],
  vapourShape: [
    [0.11707, -0.001, -0.00037],
    [0.1729, -0.00225, -0.00064],
    [0.06092, -0.00235, -0.00041],
    [0.0022, -0.00165, -0.00017],
    [-0.00266, -0.00065, -4e-5],
  ],
  warmShape: [
    [-0.63916, 0.09775, -0.00081, -0.00031],
    [0.02272, -0.0029, -0.0002, -2e-5],
    [-0.00027, 2e-5, 1e-5],
    [0],
    [0],
    [0],
  ],
};
