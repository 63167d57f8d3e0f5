// Made by tools/refrigerants/make_tables.py with CoolProp 8.0.0: change it there.
import type { RefrigerantTable } from '../table.ts';

export const r448a: RefrigerantTable = {
  name: 'R-448A',
  safetyClass: 'A1',
  molarMass: 0.08628345,
  criticalTemperature: 355.9409,
  criticalPressure: 4605181,
  lowest: 173.15,
  highest: 350.94,
  zeotropic: true,
  composition: 'R32 26 %, R125 26 %, R1234yf 20 %, R134a 21 %, R1234ze(E) 7 %',
  source: {
    equation:
      'mixture of Lemmon-IJT-2022, Lemmon-JPCRD-2005, Thol-IJT-2016-R1234zeE, TillnerRoth-JPCRD-1994, TillnerRoth-JPCRD-1997; mixing parameters Bell-JCED-2025, Bell-JPCRD-2022, Bell-JPCRD-2023, Lemmon-JPCRD-2004',
    viscosity:
      'estimated from the components: vapour by Wilke 1950; liquid by ln mu = sum x ln mu at one reduced temperature',
  },
  bubblePressure: [
    11.676275, 3.651531, -0.079583, 0.007296, 0.003277, 0.000676, 0.000101, -1.7e-5, -4.5e-5, -4.9e-5, -4.5e-5, -3.8e-5,
    -3.1e-5, -2.4e-5, -1.7e-5, -1.2e-5, -7e-6, -3e-6,
  ],
  dewPressure: [
    11.334547, 3.953239, -0.106482, 0.01701, 0.007457, 0.002893, 0.001391, 0.000777, 0.000468, 0.000295, 0.000191,
    0.000126, 8.3e-5, 5.5e-5, 3.7e-5, 2.5e-5, 1.6e-5, 1e-5, 5e-6,
  ],
  liquidDensity: [1084.5792, -391.6657, 21.728, -3.3653, 0.789, -0.3632, 0.0646, 0.005, 0.0159, -0.0119],
  vapourDensity: [
    3.002357, 3.483792, -1.245219, 0.461548, -0.172585, 0.062683, -0.022107, 0.007563, -0.002544, 0.000842, -0.000267,
    8.2e-5, -2.7e-5, 1e-5,
  ],
  liquidEnthalpy: [226285, 133037, -22350, 1373, -23, 86, -19],
  vapourEnthalpy: [393748, 29256, -20518, 1757, 381, -125, 36, -11],
  liquidHeat: [7.59431, 0.64927, 0.23279, 0.07169, 0.02488, 0.00369, 0.00095, -0.00049],
  liquidViscosity: [-8.71226, -1.30282, 0.31345, -0.09597, 0.03648, -0.01519, 0.00636, -0.00269, 0.00095],
  vapourViscosity: [11.3258, 4.1464, -0.0391, -0.01],
  heatCapacityRatio: [1.14348, -0.035664, 0.005037, -0.000758, 0.000173, -4.2e-5],
  vapourShape: [
    [0.11889, -0.00392, -0.00044],
    [0.18046, -0.00329, -0.00073],
    [0.06018, -0.00243, -0.00041],
    [-0.00075, -0.00244, -0.00017],
  ],
  warmShape: [
    [-0.59795, 0.09332, -0.00124, -0.00024],
    [0.04772, -0.00765, -5e-5, 3e-5],
    [-0.0013, 0.00016, 1e-5],
    [5e-5, 1e-5],
    [0],
    [0],
  ],
};
