import { raise } from '../../faults/issue.ts';
import { MOLAR_GAS_CONSTANT } from '../gas/constants.ts';

/** Throughput (Pa m3/s) that lifts an isolated volume (m3) by `rise` (Pa) in `time` (s): Q = V dp/dt. */
export function leakRate(volume: number, rise: number, time: number): number {
  if (!(volume > 0)) raise({ kind: 'limit', argument: 'Volume', value: volume, rule: 'above', limit: 0, unit: 'm3' });
  if (!(time > 0)) raise({ kind: 'limit', argument: 'Time', value: time, rule: 'above', limit: 0, unit: 's' });
  return (volume * rise) / time;
}

/** Mass flow (kg/s) of a throughput (Pa m3/s) of an ideal gas of a molar mass (kg/mol) at a temperature (K): Q M/(R T). */
export function massFlowOf(throughput: number, molarMass: number, temperature: number): number {
  return (throughput * molarMass) / (MOLAR_GAS_CONSTANT * temperature);
}
