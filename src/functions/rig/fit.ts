import { fitBoreToLog } from '../../engine/evacuate/fit-log.ts';
import { fitBoreToReading, fittablePart } from '../../engine/rig/fit.ts';
import { raise } from '../../faults/issue.ts';
import type { LogTable } from '../../tables/log.ts';
import { defineFunction, type Parameter } from '../define.ts';
import { conditions, isRange, logTable, partsTable, quantity, text } from '../parameters.ts';
import { EXAMPLE_PARTS } from './example-parts.ts';

const metered = quantity('volume flow', 'L/s', 'free-air meter reading', { above: 0 });
const logged = logTable();

/** A meter reading, or a range with the log of a pull-down. */
const reading: Parameter<number | LogTable> = {
  ...metered,
  description:
    'free-air meter reading on the open end, or a range with the log of a pull-down (columns Minutes, Pressure)',
  takesRange: true,
  read: (raw, argument) => {
    if (!isRange(raw)) return metered.read(raw, argument);
    const single = raw.length === 1 && raw[0]?.length === 1;
    return single ? metered.read(raw[0]?.[0], argument) : logged.read(raw, argument);
  },
};

export const rigFit = defineFunction({
  id: 'RIG.FIT',
  group: 'Rig',
  summary: 'Effective bore of one part that reproduces a free-air meter reading or a logged pull-down.',
  parameters: {
    parts: partsTable(),
    rig: text('name of a rig of the parts table'),
    part: text('name of the part whose bore is sought'),
    reading,
    conditions: conditions(),
  },
  result: { kind: 'number', quantity: 'length', unit: 'mm', description: 'effective bore of the part' },
  examples: [
    {
      formula: `=NARROWS.RIG.FIT(${EXAMPLE_PARTS},"small","core","0.4 cfm")`,
      shows: 'the bore of a core through which a meter reads 0.4 cfm',
    },
    {
      formula: `=NARROWS.RIG.FIT(${EXAMPLE_PARTS},"small","core",{"Minutes","Pressure (Pa)";0,101325;5,30000;10,9000;15,3000},{"Volume",30})`,
      shows: 'the bore of a core that pulls a 30 L system down as logged',
    },
  ],
  notes: [
    'Bores from 0.2 mm to 60 mm are looked at. A reading that no such bore gives is #N/A with the readings that can be had.',
    'A log needs Volume in the conditions. Its first row is the start; pressures are those at the system, in a dry system without leaks.',
    'An effective bore gathers in one number whatever the drawing leaves out; it holds for the gas and the range that it was fitted in.',
  ],
  sources: ['Monotone root for a reading; least squares of ln p for a log.'],
  body: ({ parts, rig, part, reading, conditions }) => {
    const chosen = parts.rig(rig);
    const index = fittablePart(chosen, part);
    const { gas, ambientPressure, volume } = conditions;
    if (typeof reading === 'number') return fitBoreToReading(chosen, gas, index, reading, ambientPressure);
    if (volume === undefined) raise({ kind: 'missing', argument: 'Volume in the conditions' });
    const { readings } = reading;
    const log = { time: readings.map((each) => each.time), pressure: readings.map((each) => each.pressure) };
    return fitBoreToLog(chosen, gas, index, volume, log);
  },
});
