// Made by tools/refrigerants/make_tables.py with CoolProp 8.0.0: change it there.
import type { RefrigerantTable } from '../table.ts';

export const r22: RefrigerantTable = {
  name: 'R-22',
  safetyClass: 'A1',
  molarMass: 0.086468,
  criticalTemperature: 369.295,
  criticalPressure: 4990000,
  lowest: 173.15,
  highest: 364.29,
  zeotropic: false,
  composition: '',
  source: {
    equation: 'Kamei-IJT-1995',
    viscosity: 'vapour: kinetic theory, sizes of Klein-IJR-1997; liquid Bell-PURDUE-2016-ETA',
  },
  bubblePressure: [
    11.546741, 3.847903, -0.085586, 0.011148, 0.005057, 0.001643, 0.000684, 0.000323, 0.000157, 8e-5, 4.4e-5, 2.5e-5,
    1.5e-5, 8e-6, 4e-6,
  ],
  dewPressure: [
    11.546741, 3.847903, -0.085586, 0.011148, 0.005057, 0.001643, 0.000684, 0.000323, 0.000157, 8e-5, 4.4e-5, 2.5e-5,
    1.5e-5, 8e-6, 4e-6,
  ],
  liquidDensity: [1140.2777, -402.07, 25.3445, -2.8494, 0.4787, -0.1036, 0.1405, -0.062, 0.0059, 0.0156],
  vapourDensity: [
    3.204694, 3.373511, -1.217614, 0.455281, -0.172108, 0.063456, -0.022806, 0.008022, -0.002725, 0.000894, -0.000286,
    9.1e-5, -2.6e-5,
  ],
  liquidEnthalpy: [233403, 120774, -20284, 1371, -116, 106, -49],
  vapourEnthalpy: [397747, 18561, -18711, 1998, 284, -140, 52, -17],
  liquidHeat: [7.4361, 0.66715, 0.2437, 0.06719, 0.0242, 0.00253, 0.00103, 0.00058, -0.00038],
  liquidViscosity: [-8.87504, -1.27337, 0.33835, -0.1009, 0.03835, -0.01719, 0.00768, -0.00329, 0.00104],
  vapourViscosity: [11.5479, 4.2842, -0.0303, -0.014],
  heatCapacityRatio: [1.189686, -0.044393, 0.006121, -0.000681, 8.6e-5],
  vapourShape: [
    [0.10913, 0.00424, -0.0026],
    [0.17069, -0.0016, 0.00025],
    [0.05796, 0.00419, -0.00286],
    [0.00277, -0.00417, 0.00084],
    [-0.00297, 0.00018, -0.00065],
  ],
  warmShape: [[-0.63781, 0.09115, 0.00182, -0.00091], [0.01885, -0.00241, -6e-5, 1e-5], [-0.0002], [0], [0], [0]],
};
