// Made by tools/refrigerants/make_tables.py with CoolProp 8.0.0: change it there.
import type { RefrigerantTable } from '../table.ts';

export const r407c: RefrigerantTable = {
  name: 'R-407C',
  safetyClass: 'A1',
  molarMass: 0.0862036,
  criticalTemperature: 359.345,
  criticalPressure: 4631700,
  lowest: 200.15,
  highest: 354.34,
  zeotropic: true,
  composition: 'R32 23 %, R125 25 %, R134a 52 %',
  source: {
    equation: 'Lemmon-IJT-2003 (pseudo-pure)',
    viscosity: 'Geller-PURDUE-2000',
  },
  bubblePressure: [
    12.604326, 2.691852, -0.037216, 0.006442, 0.00189, 0.000347, 4e-6, -6.9e-5, -7.5e-5, -6.3e-5, -4.8e-5, -3.5e-5,
    -2.5e-5, -1.7e-5, -1e-5, -5e-6,
  ],
  dewPressure: [
    12.330293, 2.924365, -0.052131, 0.012645, 0.004674, 0.00179, 0.000874, 0.000484, 0.000284, 0.000173, 0.000108,
    6.9e-5, 4.5e-5, 2.9e-5, 1.8e-5, 1.1e-5, 5e-6,
  ],
  liquidDensity: [1081.0486, -365.7165, 18.1673, -2.5295, 0.367, -0.3484, -0.0337, -0.0042],
  vapourDensity: [
    3.481, 2.745145, -0.847266, 0.272017, -0.089441, 0.028733, -0.008948, 0.002703, -0.000796, 0.000228, -6.4e-5,
    1.7e-5,
  ],
  liquidEnthalpy: [242432, 119165, -19378, 1196, 3, 68],
  vapourEnthalpy: [407047, 20415, -17405, 1681, 189, -61, 14],
  liquidHeat: [7.62052, 0.6387, 0.22485, 0.06905, 0.02384, 0.00517, 0.00144, -0.00012, 8e-5],
  liquidViscosity: [-8.81061, -1.03816, 0.18364, -0.04272, -0.00034, 0.00209],
  vapourViscosity: [11.7223, 3.7719, -0.0348],
  heatCapacityRatio: [1.140285, -0.029208, 0.003384, -0.000369, 5.1e-5],
  vapourShape: [
    [0.12273, -0.00461, -0.00066],
    [0.19371, -0.00721, -0.0006],
    [0.04841, -0.00344, -0.00029],
    [0.00017, -0.00206, -4e-5],
  ],
  warmShape: [
    [-0.61028, 0.09791, -0.00187, -0.00026],
    [0.04142, -0.00679, 5e-5, 5e-5],
    [-0.001, 9e-5, -1e-5],
    [3e-5, 1e-5],
    [0],
    [0],
  ],
};
