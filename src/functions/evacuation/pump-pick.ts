import type { Rig } from '../../engine/rig/rig.ts';
import { Fault } from '../../faults/issue.ts';
import { shortNumber } from '../../faults/words.ts';
import { type Cell, noAnswer } from '../../tables/cells.ts';
import type { Conditions } from '../../tables/conditions.ts';
import type { UnitRow } from '../../tables/units.ts';
import { defineFunction } from '../define.ts';
import { conditions, partsTable, quantity, unitsTable } from '../parameters.ts';
import { speedColumn, textColumn, timeColumn, volumeColumn } from '../rig/columns.ts';
import { EXAMPLE_PARTS } from '../rig/example-parts.ts';
import { HELPING_NOTE, helpingSpeedOf } from './helping.ts';
import { MODEL_NOTES, PULL_DOWN_SOURCE, WET_ROW_NOTES } from './model-notes.ts';
import { faultWords } from './project-verdict.ts';
import { type ProjectWork, projectWork } from './project-work.ts';

const columns = [
  textColumn('Unit'),
  textColumn('Count'),
  volumeColumn('Volume'),
  textColumn('Rig'),
  speedColumn('Pump speed'),
  timeColumn('Time to target'),
  textColumn('Verdict'),
  textColumn('Gear cost'),
  speedColumn('Bigger pump stops helping'),
] as const;

const SECONDS_PER_MINUTE = 60;
const NO_VOLUME = 'Volume is blank: fill it in, for example with RUN.VOLUME(runs, unit).';

/**
 * Least gear first: cost where every rig has one, then pump speed, then the order of the table. Where a cost is missing: pump speed, then
 * cost where it is known.
 */
function byGear(given: Iterable<Rig>): Rig[] {
  const rigs = [...given];
  const costOf = (rig: Rig): number => rig.cost ?? Number.MAX_VALUE;
  const byCost = (a: Rig, b: Rig): number => costOf(a) - costOf(b);
  const bySpeed = (a: Rig, b: Rig): number => a.pump.speed - b.pump.speed;
  return rigs.every(({ cost }) => cost !== undefined)
    ? rigs.sort((a, b) => byCost(a, b) || bySpeed(a, b))
    : rigs.sort((a, b) => bySpeed(a, b) || byCost(a, b));
}

interface Choice {
  readonly rigs: readonly Rig[];
  readonly project: ProjectWork;
  /** s, for one unit */
  readonly limit: number;
  readonly conditions: Conditions;
}

function pickRow(unit: UnitRow, target: number, { rigs, project, limit, conditions }: Choice): Cell[] {
  const { volume, fault } = unit;
  const why = fault === undefined ? NO_VOLUME : faultWords(fault);
  if (volume === undefined || fault !== undefined)
    return [unit.name, unit.count, '', '', '', noAnswer(why), why, '', ''];
  const start = [unit.name, unit.count, volume] as const;
  // the rig is connected where it is: lines are for EVAC.PROJECT
  const lumped = unit.port === undefined ? unit : { ...unit, port: undefined };
  let fastest: { seconds: number; rig: Rig } | undefined;
  let ofWater: Fault | undefined;
  for (const rig of rigs) {
    const worked = project.work(lumped, rig, volume, target);
    if (worked instanceof Fault) continue;
    const { total: seconds, wet } = worked;
    if (seconds instanceof Fault) {
      ofWater ??= seconds;
      continue;
    }
    if (seconds <= limit) {
      const met =
        wet === undefined ? 'meets the time' : wet.overWaterLimit === true ? MEETS_WET : 'meets the time, dry';
      const helping = helpingSpeedOf(rig, conditions.gas, target, conditions);
      return [...start, rig.name, rig.pump.speed, seconds, met, rig.cost ?? '', helping ?? ''];
    }
    if (fastest === undefined || seconds < fastest.seconds) fastest = { seconds, rig };
  }
  const none = noneWords(fastest, ofWater, target);
  return [...start, 'none', '', noAnswer(none), none, '', ''];
}

const MEETS_WET = 'meets the time, dry; pump’s water limit passed: open its gas ballast';

function noneWords(
  fastest: { readonly seconds: number; readonly rig: Rig } | undefined,
  ofWater: Fault | undefined,
  target: number,
): string {
  if (fastest !== undefined)
    return `none: fastest takes ${Number((fastest.seconds / SECONDS_PER_MINUTE).toPrecision(3))} min (${fastest.rig.name})`;
  return ofWater === undefined ? `none: no rig reaches ${shortNumber(target)} Pa` : `none: ${faultWords(ofWater)}`;
}

export const pumpPick = defineFunction({
  id: 'PUMP.PICK',
  group: 'Evacuation',
  summary:
    'For each unit the least rig that meets the time: the cheapest that does it, or that with the slowest pump; and where a bigger pump stops helping.',
  parameters: {
    units: unitsTable({ rigs: false }),
    parts: partsTable(),
    minutes: quantity('time', 'min', 'time there is for one unit', { above: 0 }),
    conditions: conditions(),
  },
  result: { kind: 'table', columns, description: 'one row a row of the units table, in the same order' },
  examples: [
    {
      formula: `=NARROWS.PUMP.PICK({"Unit","Count","Volume (L)";"wall split",12,6;"cold room",2,35},${EXAMPLE_PARTS},30)`,
      shows: 'which of two rigs brings each kind of unit to 500 micron in half an hour',
    },
  ],
  notes: [
    'Every rig of the parts table is tried; a Rig column of the units is not needed and not used.',
    'Each unit needs its Volume: RUN.VOLUME(runs, unit) in that column takes it from the pipe runs.',
    'Rigs are ordered by Gear cost, the sum of Cost over their parts, where every rig of the parts table has one, then by pump speed, then as they stand in it. Where one has no Cost, pump speed comes first.',
    'A row that no rig meets has "none" as its rig, #N/A as its time, and the fastest time in its verdict.',
    'Time to target is until the unit is dry, too, where it has water. A Port is passed over: the unit is taken as one volume.',
    `${HELPING_NOTE} It is for the rig that was picked and the target of the row; water and lines are left out of it.`,
    ...WET_ROW_NOTES,
    ...MODEL_NOTES,
  ],
  sources: [PULL_DOWN_SOURCE],
  body: ({ units, parts, minutes, conditions }) => {
    const choice = {
      rigs: byGear(parts.rigs.values()),
      project: projectWork(conditions, undefined),
      limit: minutes,
      conditions,
    };
    const rows = units.units.map((unit) => pickRow(unit, unit.target ?? conditions.target, choice));
    return { columns, rows };
  },
});
