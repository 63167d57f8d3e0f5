// Made by tools/refrigerants/make_tables.py with CoolProp 8.0.0: change it there.
import type { RefrigerantTable } from '../table.ts';

export const r744: RefrigerantTable = {
  name: 'R-744',
  safetyClass: 'A1',
  molarMass: 0.0440098,
  criticalTemperature: 304.1282,
  criticalPressure: 7377298,
  lowest: 217.1,
  highest: 299.12,
  zeotropic: false,
  composition: '',
  source: {
    equation: 'Span-JPCRD-1996',
    viscosity: 'Laesecke-JPCRD-2017-CO2',
  },
  bubblePressure: [14.441601, 1.256598, -0.002842, 0.003007, 0.000698, 0.000216, 7.8e-5, 3e-5, 1e-5],
  dewPressure: [14.441601, 1.256598, -0.002842, 0.003007, 0.000698, 0.000216, 7.8e-5, 3e-5, 1e-5],
  liquidDensity: [925.3746, -240.3829, 10.3098, -0.4198, 0.119, -0.0289, 0.0063, -0.0025, -0.0094],
  vapourDensity: [4.381838, 1.389823, -0.275621, 0.057335, -0.012642, 0.002771, -0.000614, 0.000132, -2.7e-5],
  liquidEnthalpy: [192571, 98179, -12432, 845, -62, 16],
  vapourEnthalpy: [420229, -21264, -9470, 1378, -52],
  liquidHeat: [8.04756, 0.62887, 0.18877, 0.03693, 0.00833, 0.00136, 0.00057, 0.00033, 3e-5, -0.00013, -0.00012],
  liquidViscosity: [-9.14687, -0.73811, 0.09748, -0.01916, 0.00278],
  vapourViscosity: [14.7265, 3.7215, -0.0338, -0.0043],
  heatCapacityRatio: [1.293414, -0.036979, 0.003553, -0.000181, -2.9e-5],
  vapourShape: [
    [0.12058, -0.00017, -0.00056],
    [0.15233, 0.00138, -0.00071],
    [0.03241, 0.00069, -0.00017],
    [-0.00089, -0.00084, -7e-5],
  ],
  warmShape: [
    [-0.48341, 0.06779, -0.00019, -9e-5],
    [0.13125, -0.01375, -0.00065, 0.00015],
    [-0.01097, 0.00104, 0.00015, 2e-5],
    [0.00107, 0.00012, 1e-5, -1e-5],
    [-0.00014, -8e-5, -2e-5],
    [3e-5, 3e-5, 1e-5],
  ],
};
