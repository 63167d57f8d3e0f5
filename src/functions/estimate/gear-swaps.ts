import { singleSwaps } from '../../engine/rig/change.ts';
import type { Rig } from '../../engine/rig/rig.ts';
import { Fault, raise } from '../../faults/issue.ts';
import { placeWords } from '../../faults/words.ts';
import { type Cell, noAnswer } from '../../tables/cells.ts';
import type { SpillColumn } from '../../tables/spill.ts';
import { defineFunction } from '../define.ts';
import { rigFinder } from '../evacuation/project-rows.ts';
import { faultWords } from '../evacuation/project-verdict.ts';
import { conditions, optional, partsTable, runsTable, unitsTable } from '../parameters.ts';
import { shareColumn, textColumn } from '../rig/columns.ts';
import { EXAMPLE_PARTS } from '../rig/example-parts.ts';
import { swapWords } from '../rig/swaps.ts';
import { hoursColumn } from './columns.ts';
import { leftOutWords, projectHours, type UnitGroup } from './project-hours.ts';

const columns = [
  textColumn('Rig'),
  textColumn('Change'),
  textColumn('Units'),
  hoursColumn('Pump time before'),
  hoursColumn('Pump time'),
  hoursColumn('Saved'),
  shareColumn('Saved of all'),
  textColumn('Verdict'),
] as const satisfies readonly SpillColumn[];

/** Units that one rig of the project evacuates. */
interface InUse {
  readonly rig: Rig;
  readonly groups: UnitGroup[];
  count: number;
}

export const gearSwaps = defineFunction({
  id: 'GEAR.SWAPS',
  group: 'Estimate',
  summary: 'Each single change of each rig in use, ranked by the pump hours that it saves over the whole project.',
  parameters: {
    units: unitsTable(),
    parts: partsTable(),
    runs: optional(runsTable()),
    conditions: conditions(),
  },
  result: {
    kind: 'table',
    columns,
    description: 'the project as it is, then one row a change of a rig, the best first',
  },
  examples: [
    {
      formula: `=NARROWS.GEAR.SWAPS({"Unit","Count","Volume (L)","Rig";"wall split",12,6,"small";"cold room",2,35,"wide"},${EXAMPLE_PARTS})`,
      shows: 'which one change of the two rigs saves the project most pump time',
    },
  ],
  notes: [
    'The changes are those of RIG.SWAPS: core out, next usual hose, half length, twice the pump; one at a time, everything else stays.',
    'Pump time before and Pump time are the sums over all units of that rig, times Count, of Total of EVAC.PROJECT: water and lines included. Saved of all is of the pump time of the whole project.',
    'A change with which some unit has no answer is #N/A, with the reason as its verdict. Rows of the units that have no answer as they are, are left out, and the last row says so.',
    'Taking a core out needs a core-removal tool that holds the pressure of the system.',
  ],
  sources: ['Pull-down on the curve of each changed rig.'],
  body: ({ units, parts, runs, conditions }) => {
    const project = projectHours(units.units, runs, conditions, { byRig: true });
    const findRig = rigFinder(parts);
    const inUse = new Map<Rig, InUse>();
    const unanswered: string[] = [];
    let before = 0;
    let count = 0;
    for (const group of project.groups) {
      const rig = findRig(group.unit.rig);
      const seconds = rig instanceof Fault ? faultWords(rig) : project.seconds([group], rig);
      if (rig instanceof Fault || typeof seconds === 'string') {
        unanswered.push(`${placeWords({ table: 'units', row: group.unit.row })}: ${seconds}`);
        continue;
      }
      const use = inUse.get(rig) ?? { rig, groups: [], count: 0 };
      inUse.set(rig, use);
      use.groups.push(group);
      use.count += group.count;
      before += seconds;
      count += group.count;
    }
    const left = [leftOutWords(project) ?? [], unanswered.map((words) => `left out, ${words}`)].flat();
    if (count === 0 && left.length > 0)
      raise({ kind: 'no-solution', reason: left[0] ?? '', todo: 'Fill in what is missing.' });
    const changes = [...inUse.values()].flatMap(({ rig, groups, count: ofRig }) => {
      const own = project.seconds(groups, rig);
      return singleSwaps(rig).map((swap) => {
        const after = project.seconds(groups, swap.rig);
        const saved = typeof own === 'number' && typeof after === 'number' ? own - after : undefined;
        return { name: rig.name, words: swapWords(swap), ofRig, own, after, saved };
      });
    });
    changes.sort((a, b) => (b.saved ?? Number.NEGATIVE_INFINITY) - (a.saved ?? Number.NEGATIVE_INFINITY));
    const rows = changes.map(({ name, words, ofRig, own, after, saved }): Cell[] => {
      if (saved === undefined) {
        const none = noAnswer(String(after));
        return [name, words, ofRig, own, none, none, none, String(after)];
      }
      return [name, words, ofRig, own, after, saved, before > 0 ? saved / before : 0, ''];
    });
    const asItIs: Cell[] = ['all', 'as it is', count, before, before, 0, 0, ''];
    const leftRows = left.length === 0 ? [] : [['Left out', '', '', '', '', '', '', left.join('; ')]];
    return { columns, rows: [asItIs, ...rows, ...leftRows] };
  },
});
