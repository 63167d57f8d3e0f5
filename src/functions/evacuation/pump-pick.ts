import type { Rig } from '../../engine/rig/rig.ts';
import { shortNumber } from '../../faults/words.ts';
import { type Cell, noAnswer } from '../../tables/cells.ts';
import type { UnitRow } from '../../tables/units.ts';
import { defineFunction } from '../define.ts';
import { conditions, partsTable, quantity, unitsTable } from '../parameters.ts';
import { speedColumn, textColumn, timeColumn, volumeColumn } from '../rig/columns.ts';
import { EXAMPLE_PARTS } from '../rig/example-parts.ts';
import { DRY_NOTE, MODEL_NOTES, PULL_DOWN_SOURCE } from './model-notes.ts';
import { type ProjectPlans, projectPlans, secondsOrFault } from './project-plans.ts';

const columns = [
  textColumn('Unit'),
  textColumn('Count'),
  volumeColumn('Volume'),
  textColumn('Rig'),
  speedColumn('Pump speed'),
  timeColumn('Time to target'),
  textColumn('Verdict'),
] as const;

const SECONDS_PER_MINUTE = 60;
const NO_VOLUME = 'Volume is blank: fill it in, for example with RUN.VOLUME(runs, unit).';

/** Least gear first: pump speed, then cost where it is known, then the order of the table. */
function byGear(rigs: Iterable<Rig>): Rig[] {
  const costOf = (rig: Rig): number => rig.cost ?? Number.POSITIVE_INFINITY;
  return [...rigs].sort((a, b) => {
    if (a.pump.speed !== b.pump.speed) return a.pump.speed - b.pump.speed;
    const [left, right] = [costOf(a), costOf(b)];
    return left === right ? 0 : left - right;
  });
}

interface Choice {
  readonly rigs: readonly Rig[];
  readonly plans: ProjectPlans;
  /** s, for one unit */
  readonly limit: number;
}

function pickRow(unit: UnitRow, target: number, { rigs, plans, limit }: Choice): Cell[] {
  const { volume } = unit;
  if (volume === undefined) return [unit.name, unit.count, '', '', '', noAnswer(NO_VOLUME), NO_VOLUME];
  const start = [unit.name, unit.count, volume] as const;
  let fastest: { seconds: number; rig: Rig } | undefined;
  for (const rig of rigs) {
    const seconds = secondsOrFault(plans.planFor(rig, target), volume);
    if (typeof seconds !== 'number') continue;
    if (seconds <= limit) return [...start, rig.name, rig.pump.speed, seconds, 'meets the time'];
    if (fastest === undefined || seconds < fastest.seconds) fastest = { seconds, rig };
  }
  const why =
    fastest === undefined
      ? `none: no rig reaches ${shortNumber(target)} Pa`
      : `none: fastest takes ${Number((fastest.seconds / SECONDS_PER_MINUTE).toPrecision(3))} min (${fastest.rig.name})`;
  return [...start, 'none', '', noAnswer(why), why];
}

export const pumpPick = defineFunction({
  id: 'PUMP.PICK',
  group: 'Evacuation',
  summary: 'For each unit the least rig that meets the time: the slowest pump that does it, then the lowest cost.',
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
    'Rigs are ordered by pump speed, then by the sum of Cost where the parts table has it, then as they stand in it.',
    'A row that no rig meets has "none" as its rig, #N/A as its time, and the fastest time in its verdict.',
    DRY_NOTE,
    ...MODEL_NOTES,
  ],
  sources: [PULL_DOWN_SOURCE],
  body: ({ units, parts, minutes, conditions }) => {
    const choice = { rigs: byGear(parts.rigs.values()), plans: projectPlans(conditions), limit: minutes };
    const rows = units.units.map((unit) => pickRow(unit, unit.target ?? conditions.target, choice));
    return { columns, rows };
  },
});
