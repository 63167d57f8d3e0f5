// Made by tools/refrigerants/make_tables.py with CoolProp 8.0.0: change it there.
import type { RefrigerantTable } from '../table.ts';

export const r1234zee: RefrigerantTable = {
  name: 'R-1234ze(E)',
  safetyClass: 'A2L',
  molarMass: 0.11404159,
  criticalTemperature: 382.513,
  criticalPressure: 3634871,
  lowest: 173.15,
  highest: 377.51,
  zeotropic: false,
  composition: '',
  source: {
    equation: 'Thol-IJT-2016-R1234zeE',
    viscosity: 'vapour: kinetic theory, sizes of BELL-PERSONAL-2015; liquid Bell-PURDUE-2016-ETA',
  },
  bubblePressure: [
    10.587541, 4.538496, -0.140932, 0.012527, 0.006758, 0.002151, 0.000813, 0.000401, 0.000223, 0.000131, 7.8e-5,
    4.6e-5, 2.7e-5, 1.6e-5, 9e-6, 4e-6,
  ],
  dewPressure: [
    10.587541, 4.538496, -0.140932, 0.012527, 0.006758, 0.002151, 0.000813, 0.000401, 0.000223, 0.000131, 7.8e-5,
    4.6e-5, 2.7e-5, 1.6e-5, 9e-6, 4e-6,
  ],
  liquidDensity: [1083.2893, -386.7004, 24.7218, -3.7174, 1.5616, -0.2904, 0.0857, -0.0483, 0.0211, 0.0059, -0.013],
  vapourDensity: [
    2.788396, 3.886092, -1.487512, 0.585564, -0.231605, 0.088716, -0.032925, 0.011791, -0.004133, 0.001423, -0.000475,
    0.000161, -5.8e-5, 1.9e-5,
  ],
  liquidEnthalpy: [247811, 143966, -27005, 1633, -57, 100, -30],
  vapourEnthalpy: [392013, 52405, -24438, 1508, 718, -249, 82, -26],
  liquidHeat: [7.49533, 0.5474, 0.19697, 0.06321, 0.02513, 0.00436, 0.00161, -1e-5, 0.00021, 6e-5, -0.00011],
  liquidViscosity: [
    -8.56679, -1.47784, 0.41605, -0.14235, 0.06356, -0.03041, 0.01402, -0.00641, 0.00279, -0.00125, 0.00042,
  ],
  vapourViscosity: [11.4149, 4.2983, -0.0262, -0.0145],
  heatCapacityRatio: [1.099407, -0.023745, 0.004422, -0.001224, 0.000365, -8.8e-5, 1.7e-5],
  vapourShape: [
    [0.11242, -0.00274, 0.00012],
    [0.17059, -0.00916, 0.00277],
    [0.05957, -0.0002, -0.00049],
    [0.0049, -0.0017, 0.00082],
    [-0.00286, 0.00107, -0.00057],
  ],
};
