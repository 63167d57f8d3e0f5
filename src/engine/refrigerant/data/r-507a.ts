// Made by tools/refrigerants/make_tables.py with CoolProp 8.0.0: change it there.
import type { RefrigerantTable } from '../table.ts';

export const r507a: RefrigerantTable = {
  name: 'R-507A',
  safetyClass: 'A1',
  molarMass: 0.0988592,
  criticalTemperature: 343.765,
  criticalPressure: 3704900,
  lowest: 200.15,
  highest: 338.76,
  zeotropic: false,
  composition: 'R125 50 %, R143a 50 %',
  source: {
    equation: 'Lemmon-IJT-2003 (pseudo-pure)',
    viscosity: 'Geller-PURDUE-2000',
  },
  bubblePressure: [
    12.568512, 2.468146, -0.030957, 0.008337, 0.002505, 0.000795, 0.000326, 0.00015, 7.2e-5, 3.6e-5, 1.8e-5, 7e-6,
  ],
  dewPressure: [
    12.568049, 2.46785, -0.031007, 0.008586, 0.002522, 0.000831, 0.000355, 0.000167, 8.2e-5, 4.2e-5, 2.2e-5, 1.1e-5,
    5e-6,
  ],
  liquidDensity: [1045.254, -331.9927, 16.7382, -1.4587, 0.7637, -0.1799, 0.0012, -0.0222, 0.0077],
  vapourDensity: [
    3.72037, 2.399624, -0.677946, 0.203087, -0.062677, 0.019067, -0.005667, 0.001646, -0.000457, 0.000124, -3e-5,
  ],
  liquidEnthalpy: [225355, 101184, -16427, 765, 24, 23],
  vapourEnthalpy: [358516, 22588, -15031, 1200, 204, -61, 16],
  liquidHeat: [7.52547, 0.57138, 0.18013, 0.05492, 0.01782, 0.00348, 0.00174, -7e-5, 0.00015],
  liquidViscosity: [-8.81266, -1.01026, 0.19809, -0.03572, -0.00312, 0.00228],
  vapourViscosity: [11.6013, 3.7145, -0.0869],
  heatCapacityRatio: [1.115273, -0.025258, 0.003589, -0.000469, 6.5e-5],
  vapourShape: [
    [0.14557, -0.00899, 0.00045],
    [0.17246, -0.00861, 0.00075],
    [0.05903, -0.00179, 9e-5],
    [-0.00173, -0.00228, -6e-5],
  ],
  warmShape: [
    [-0.59965, 0.10069, -0.00304],
    [0.0734, -0.0117, 0.00037],
    [-0.00308, 0.0003, -4e-5],
    [0.00017, 5e-5, 1e-5],
    [-1e-5, -1e-5],
  ],
};
