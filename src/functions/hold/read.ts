import { saturationPressure } from '../../engine/gas/water.ts';
import { meanTemperature } from '../../engine/hold/prepare.ts';
import { type HoldVerdict, readHold } from '../../engine/hold/read.ts';
import { keeping } from '../../engine/keep.ts';
import type { SpillColumn } from '../../tables/spill.ts';
import { defineFunction } from '../define.ts';
import { conditions, logTable, quantity } from '../parameters.ts';
import { pressureColumn, shareColumn, textColumn } from '../rig/columns.ts';
import { advice, NO_VERDICT, sureness } from './advice.ts';

const SECONDS_PER_MINUTE = 60;

/** Verdicts by all that they rest on, which is little of the conditions. */
const MOST_KEPT = 64;
const keep = keeping<HoldVerdict>(MOST_KEPT);

const columns: readonly SpillColumn[] = [
  textColumn('Verdict'),
  { name: 'Rate', quantity: 'throughput', metricUnit: 'Pa m3/s', inchUnit: 'micron cfm' },
  pressureColumn('Rise in a minute'),
  textColumn('How sure'),
  shareColumn('Probability'),
  textColumn('What to do'),
];

export const holdRead = defineFunction({
  id: 'HOLD.READ',
  group: 'Hold test',
  summary: 'Reads the log of a hold test: tight, leak, moisture or outgassing, how sure that is, and what to do.',
  parameters: {
    log: logTable('range with a header row: Minutes, Pressure, optional Temperature; from valving off on'),
    volume: quantity('volume', 'L', 'inside volume of the system', { above: 0 }),
    conditions: conditions(),
  },
  result: {
    kind: 'table',
    columns,
    description: 'one row: the verdict, or "can\'t tell yet" and what would settle it',
  },
  examples: [
    {
      formula: '=NARROWS.HOLD.READ({"Minutes","Pressure (micron)";0,300;5,352;10,399;15,451;20,500;25,548;30,601},20)',
      shows: 'a leak, from seven readings in half an hour',
    },
    {
      formula:
        '=NARROWS.HOLD.READ({"Minutes","Pressure (micron)";0,300;5,1064;10,1345;15,1449;20,1487;25,1501;30,1506},20)',
      shows: 'moisture, which levels off',
    },
    {
      formula: '=NARROWS.HOLD.READ({"Minutes","Pressure (micron)";0,300;5,352;10,399},20)',
      shows: 'too few readings for a verdict',
    },
  ],
  notes: [
    'Shapes fitted by least squares: level (tight); p0 + a t (leak); p0 + (p1 - p0)(1 - exp(-t/tau)) with p1 the saturation pressure, or free up to it (moisture); p0 + A ln(1 + t/t0) or p0 + A (sqrt(1 + t/t0) - 1) (outgassing); leak and moisture together only where the readings demand it.',
    'Akaike’s criterion for few readings (AICc) weighs the shapes; a verdict needs 95 %. Readings weigh by a noise of 1 % or one step of the gauge (Gauge resolution of the conditions; where that is blank one micron, or the steps that the log shows); noise alike at all readings is taken instead where it fits better; its size is estimated from the log. One bad reading is left out and named.',
    'Tight means that the rise is, with 95 % certainty, under 100 micron an hour; Rate is then the most that the noise can hide. That figure and the 500 and 1000 micron of the advice are practice, not physics.',
    'Rate and rise of moisture and outgassing are those at the end of the log; without a verdict those of a straight line through it. Rate is volume times rise, at the temperature of the first reading.',
    'A straight rise is called a leak where moisture with a time constant of half an hour, or of the whole log where that is longer, would have shown its bend, and where moisture on its way to the saturation pressure within six hours does not fit about as well: odds of one to four beforehand. Slower moisture looks the same. A fast rise in a short log may be either: the words then name both.',
    'Readings that stay within one step of the gauge are no verdict where that step could hide 100 micron an hour; the words say how much longer it takes.',
    'Where Temperature is logged, gas that is shut in follows it as an ideal gas (p in proportion to T) and vapour over its water either does not or follows its saturation pressure, whichever fits; readings without it are filled in between. The saturation pressure is that at the mean logged temperature, else at Ambient.',
    'At least six readings over five minutes; twenty over half an hour tell most causes apart. The pump must be valved off and the gauge at the system.',
  ],
  sources: [
    'Burnham and Anderson, Model Selection and Multimodel Inference (2002): AICc and weights, from memory',
    'Vacuum textbooks (O Hanlon; Jousten): outgassing falls as 1/t or as the root of it; from memory',
    'Guide specifications and split manuals for the limits of holds; makers left unnamed',
  ],
  body: ({ log, volume, conditions }) => {
    const wall = meanTemperature(log.readings) ?? conditions.ambientTemperature;
    const { gaugeResolution: resolution } = conditions;
    const saturation = saturationPressure(wall);
    const { readings } = log;
    const verdict = keep(JSON.stringify([readings, volume, saturation, resolution]), () =>
      readHold(readings, { volume, saturation, ...(resolution === undefined ? {} : { resolution }) }),
    );
    const { cause, rate, rise, probability } = verdict;
    const row = [cause ?? NO_VERDICT, rate, rise * SECONDS_PER_MINUTE, sureness(verdict), probability, advice(verdict)];
    return { columns, rows: [row] };
  },
});
