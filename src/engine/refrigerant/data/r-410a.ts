// Made by tools/refrigerants/make_tables.py with CoolProp 8.0.0: change it there.
import type { RefrigerantTable } from '../table.ts';

export const r410a: RefrigerantTable = {
  name: 'R-410A',
  safetyClass: 'A1',
  molarMass: 0.0725854,
  criticalTemperature: 344.494,
  criticalPressure: 4901200,
  lowest: 200.15,
  highest: 339.49,
  zeotropic: false,
  composition: 'R32 50 %, R125 50 %',
  source: {
    equation: 'Lemmon-IJT-2003 (pseudo-pure)',
    viscosity: 'Geller-PURDUE-2000',
  },
  bubblePressure: [
    12.820332, 2.495682, -0.028478, 0.007783, 0.002388, 0.000684, 0.000231, 8.8e-5, 3.6e-5, 1.5e-5, 6e-6,
  ],
  dewPressure: [
    12.81682, 2.497069, -0.028435, 0.008166, 0.002538, 0.000807, 0.000308, 0.00013, 5.9e-5, 2.8e-5, 1.3e-5, 5e-6,
  ],
  liquidDensity: [1053.369, -343.2462, 16.5832, -2.0436, 0.1514, -0.2921, 0.0046, 0.019],
  vapourDensity: [
    3.685346, 2.437177, -0.688457, 0.204919, -0.063049, 0.018895, -0.005535, 0.001585, -0.000444, 0.000121, -3e-5,
  ],
  liquidEnthalpy: [229632, 113683, -17508, 1120, -35, 88],
  vapourEnthalpy: [410667, 5718, -15695, 1816, 98, -25],
  liquidHeat: [7.6819, 0.65968, 0.23321, 0.06842, 0.0247, 0.00502, 0.00084, 0.00012],
  liquidViscosity: [-8.93988, -0.92372, 0.14893, -0.01642, -0.00443],
  vapourViscosity: [12.245, 4.0045, -0.0796],
  heatCapacityRatio: [1.172758, -0.03345, 0.002807, -8.1e-5, 1.1e-5],
  vapourShape: [
    [0.13865, -0.01038, -3e-5],
    [0.2265, -0.0148, 0.00037],
    [0.04258, -0.00606, 0.00022],
    [0.00243, -0.00232, -2e-5],
    [-0.00166, -0.00039, -7e-5],
  ],
  warmShape: [
    [-0.62096, 0.11259, -0.00481, 0.00029],
    [0.07591, -0.01481, 0.00027, 0.00011],
    [-0.00324, 0.00054, -4e-5, -1e-5],
    [0.00019, 5e-5, 2e-5],
    [-2e-5, -1e-5],
    [0],
  ],
};
