import type { Rig } from '../../engine/rig/rig.ts';
import { Fault } from '../../faults/issue.ts';
import { issueWords, shortNumber } from '../../faults/words.ts';
import { type Cell, noAnswer } from '../../tables/cells.ts';
import type { PartsTable } from '../../tables/rigs.ts';
import type { RunsTable } from '../../tables/runs.ts';
import type { UnitRow } from '../../tables/units.ts';
import { defineFunction } from '../define.ts';
import { conditions, optional, partsTable, runsTable, unitsTable } from '../parameters.ts';
import { pressureColumn, shareColumn, textColumn, timeColumn, volumeColumn } from '../rig/columns.ts';
import { EXAMPLE_PARTS } from '../rig/example-parts.ts';
import { DRY_NOTE, MODEL_NOTES, PULL_DOWN_SOURCE } from './model-notes.ts';
import { orFault, projectPlans, secondsOrFault } from './project-plans.ts';

const columns = [
  textColumn('Unit'),
  textColumn('Count'),
  textColumn('Rig'),
  volumeColumn('Volume'),
  pressureColumn('Target'),
  timeColumn('Time to target'),
  textColumn('Limiting part'),
  shareColumn('Its share of loss'),
  textColumn('Verdict'),
] as const;

const GRAMS_PER_KG = 1e3;

/** Volume of a unit by its own cell, else by the pipe runs of its name; words where there is none. */
function volumeOf(unit: UnitRow, runs: RunsTable | undefined): number | string {
  const volume = unit.volume ?? runs?.volumeOf(unit.name);
  if (volume === undefined)
    return runs === undefined
      ? 'Volume is blank: fill it in, or give the pipe runs.'
      : `Volume is blank, and the runs have no unit "${unit.name}": fill it in, or add its runs.`;
  return volume > 0 ? volume : 'The runs of this unit add up to no volume: check their lengths and counts.';
}

/** Rigs by the name as a unit row writes it, each name looked up once. */
function rigFinder(parts: PartsTable): (name: string) => Rig | Fault {
  const found = new Map<string, Rig | Fault>();
  return (name) => {
    const known = found.get(name);
    if (known !== undefined) return known;
    const rig = orFault(() => parts.rig(name));
    found.set(name, rig);
    return rig;
  };
}

function reachedWords(water: number): string {
  return water > 0
    ? `dry system only: the ${shortNumber(water * GRAMS_PER_KG)} g of water must boil off first (DRY.TIME)`
    : 'reaches target';
}

export const evacProject = defineFunction({
  id: 'EVAC.PROJECT',
  group: 'Evacuation',
  summary: 'Minutes to target for every unit of a project, each through its own rig, with the part that limits it.',
  parameters: {
    units: unitsTable(),
    parts: partsTable(),
    runs: optional(runsTable()),
    conditions: conditions(),
  },
  result: { kind: 'table', columns, description: 'one row a row of the units table, in the same order' },
  examples: [
    {
      formula: `=NARROWS.EVAC.PROJECT({"Unit","Count","Volume (L)","Rig";"wall split",12,6,"small";"cold room",2,35,"wide"},${EXAMPLE_PARTS})`,
      shows: 'minutes to 500 micron for two kinds of units, each through its own rig',
    },
  ],
  notes: [
    'Time is for one unit of the row; Count is passed on for totals. Target is the row’s own, else that of the conditions.',
    'A blank Volume is taken from the runs by the unit’s name.',
    'A row that cannot be worked out has #N/A as its time and the reason as its verdict.',
    'The limiting part is the one with the largest share of the loss at the target pressure.',
    'A row with Water says in its verdict that the time is for a dry system.',
    DRY_NOTE,
    ...MODEL_NOTES,
  ],
  sources: [PULL_DOWN_SOURCE],
  body: ({ units, parts, runs, conditions }) => {
    const plans = projectPlans(conditions);
    const findRig = rigFinder(parts);
    const rows = units.units.map((unit): Cell[] => {
      const target = unit.target ?? conditions.target;
      const volume = volumeOf(unit, runs);
      const shown = typeof volume === 'number' ? volume : '';
      const failed = (why: string): Cell[] => [
        unit.name,
        unit.count,
        unit.rig,
        shown,
        target,
        noAnswer(why),
        '',
        '',
        why,
      ];
      const rig = findRig(unit.rig);
      if (rig instanceof Fault) return failed(issueWords(rig.issue));
      if (typeof volume === 'string') return failed(volume);
      const plan = plans.planFor(rig, target);
      const seconds = secondsOrFault(plan, volume);
      if (plan instanceof Fault) return failed(issueWords(plan.issue));
      if (seconds instanceof Fault) return failed(issueWords(seconds.issue));
      const { limiting } = plan;
      return [
        unit.name,
        unit.count,
        rig.name,
        volume,
        target,
        seconds,
        limiting?.name ?? rig.pump.name,
        limiting?.share ?? '',
        reachedWords(unit.water ?? conditions.water),
      ];
    });
    return { columns, rows };
  },
});
