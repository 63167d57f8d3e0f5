import type { Rig } from '../../engine/rig/rig.ts';
import { raise } from '../../faults/issue.ts';
import { type Cell, noAnswer } from '../../tables/cells.ts';
import type { SpillColumn } from '../../tables/spill.ts';
import { defineFunction } from '../define.ts';
import { HELPING_NOTE, helpingSpeedOf } from '../evacuation/helping.ts';
import { conditions, optional, partsTable, runsTable, unitsTable } from '../parameters.ts';
import { speedColumn, textColumn } from '../rig/columns.ts';
import { hoursColumn, SECONDS_PER_HOUR } from './columns.ts';
import { leftOutWords, projectHours } from './project-hours.ts';

const columns = [
  textColumn('Rig'),
  speedColumn('Pump speed'),
  textColumn('Gear cost'),
  hoursColumn('Pump time'),
  textColumn('On the front'),
  textColumn('Next step'),
  hoursColumn('It saves'),
  textColumn('Its cost an hour saved'),
  speedColumn('Bigger pump stops helping'),
  textColumn('Verdict'),
] as const satisfies readonly SpillColumn[];

interface Gear {
  readonly rig: Rig;
  readonly cost: number | undefined;
  /** s for all units, or why not */
  readonly seconds: number | string;
}

interface Priced extends Gear {
  readonly cost: number;
  readonly seconds: number;
}

function isPriced(gear: Gear): gear is Priced {
  return gear.cost !== undefined && typeof gear.seconds === 'number';
}

/** Neither dearer nor slower, and one of both better. */
function dominates(a: Priced, b: Priced): boolean {
  return a.cost <= b.cost && a.seconds <= b.seconds && (a.cost < b.cost || a.seconds < b.seconds);
}

const EXAMPLE =
  '{"Rig","Part","Kind","Bore (mm)","Length (m)","Speed (cfm)","Ultimate (micron)","Cost";' +
  '"small","pump","pump","","",5,20,300;"small","small hose","hose",4.8,1.5,"","",20;' +
  '"wide","pump","pump","","",5,20,300;"wide","wide hose","hose",12.7,1.5,"","",80;' +
  '"strong","pump","pump","","",10,20,700;"strong","small hose","hose",4.8,1.5,"","",20}';

export const gearPareto = defineFunction({
  id: 'GEAR.PARETO',
  group: 'Estimate',
  summary:
    'Every rig for the whole project: pump hours against cost of gear, which rigs no other beats in both, and what the next step costs.',
  parameters: {
    units: unitsTable({ rigs: false }),
    parts: partsTable(),
    runs: optional(runsTable()),
    conditions: conditions(),
  },
  result: {
    kind: 'table',
    columns,
    description: 'one row a rig of the parts table, by rising cost, then by pump time',
  },
  examples: [
    {
      formula: `=NARROWS.GEAR.PARETO({"Unit","Count","Volume (L)";"wall split",12,6;"cold room",2,35},${EXAMPLE})`,
      shows: 'that a wide hose beats a pump of twice the speed behind a small one, at less cost',
    },
  ],
  notes: [
    'Every rig of the parts table is tried on all units, one after another; a Rig column of the units is not needed and not used.',
    'Pump time is the sum over all units, times Count, of Total of EVAC.PROJECT: until dry, at the target, and the far end of a line, too.',
    'Gear cost is the sum of Cost over the parts of the rig: one set of gear, however many crews there are.',
    'On the front: no other rig is as cheap and as quick, and better in one of both. Next step is the next dearer rig on the front, with the pump time that it saves and what one hour saved costs: its further cost over the hours, for this one project.',
    'A rig without any Cost, or one that has no answer for a unit, is not on the front, and its verdict says why.',
    HELPING_NOTE,
    'That speed is for Target pressure and Temperature of the conditions.',
  ],
  sources: ['Non-dominated (Pareto) points of two criteria: textbooks of decision analysis.'],
  body: ({ units, parts, runs, conditions }) => {
    const project = projectHours(units.units, runs, conditions, { byRig: false });
    const left = leftOutWords(project);
    if (project.groups.length === 0 && left !== undefined)
      raise({ kind: 'no-solution', reason: left, todo: 'Fill in what is missing.' });
    const gears = [...parts.rigs.values()].map(
      (rig): Gear => ({ rig, cost: rig.cost, seconds: project.seconds(project.groups, rig) }),
    );
    const sortable = (value: number | string | undefined): number =>
      typeof value === 'number' ? value : Number.MAX_VALUE;
    gears.sort((a, b) => sortable(a.cost) - sortable(b.cost) || sortable(a.seconds) - sortable(b.seconds));
    const priced = gears.filter(isPriced);
    const front = priced.filter((gear) => !priced.some((other) => dominates(other, gear)));
    const rows = gears.map((gear): Cell[] => {
      const { rig, cost, seconds } = gear;
      const helping = helpingSpeedOf(rig, conditions.gas, conditions.target, conditions) ?? '';
      const start = [rig.name, rig.pump.speed, cost ?? ''] as const;
      if (typeof seconds === 'string')
        return [...start, noAnswer(seconds), 'no', '', '', '', helping, `no answer for ${seconds}`];
      if (!isPriced(gear)) return [...start, seconds, 'no', '', '', '', helping, 'no Cost in the parts table'];
      if (!front.includes(gear)) {
        const by = priced.find((other) => dominates(other, gear));
        return [...start, seconds, 'no', '', '', '', helping, `${by?.rig.name ?? ''} is no dearer and no slower`];
      }
      const next = front.find((other) => other.cost > gear.cost);
      if (next === undefined) return [...start, seconds, 'yes', '', '', '', helping, 'the quickest'];
      const saves = seconds - next.seconds;
      const price = ((next.cost - gear.cost) * SECONDS_PER_HOUR) / saves;
      const verdict = gear === front[0] ? 'the cheapest' : '';
      return [...start, seconds, 'yes', next.rig.name, saves, price, helping, verdict];
    });
    if (left !== undefined) rows.push(['Left out', ...Array.from({ length: columns.length - 2 }, () => ''), left]);
    return { columns, rows };
  },
});
