import { Fault } from '../../faults/issue.ts';
import { type Cell, noAnswer } from '../../tables/cells.ts';
import type { SpillColumn } from '../../tables/spill.ts';
import { defineFunction } from '../define.ts';
import { DRY_OUT_SOURCES } from '../dry-out/notes.ts';
import { conditions, optional, partsTable, runsTable, unitsTable } from '../parameters.ts';
import { pressureColumn, shareColumn, textColumn, timeColumn, volumeColumn } from '../rig/columns.ts';
import { EXAMPLE_PARTS } from '../rig/example-parts.ts';
import { MODEL_NOTES, PROJECT_NOTES, PULL_DOWN_SOURCE } from './model-notes.ts';
import { rigFinder, volumeOf } from './project-rows.ts';
import { faultWords, REACHES_TARGET, verdictOf } from './project-verdict.ts';
import { projectWork } from './project-work.ts';

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
  timeColumn('Dry-out'),
  timeColumn('Total'),
  { name: 'Lowest water temperature', quantity: 'temperature', metricUnit: 'C', inchUnit: 'F' },
  textColumn('Froze'),
  textColumn('Water limit passed'),
  timeColumn('Far end'),
  textColumn('Far end node'),
] as const satisfies readonly SpillColumn[];

function yesNo(value: boolean | undefined): string {
  return value === undefined ? '' : value ? 'yes' : 'no';
}

export const evacProject = defineFunction({
  id: 'EVAC.PROJECT',
  group: 'Evacuation',
  summary:
    'Minutes for every unit of a project, each through its own rig: to target, until dry, at the far end of its line, and what decides.',
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
    {
      formula: `=NARROWS.EVAC.PROJECT({"Unit","Volume (L)","Rig","Water (g)","Heat (W/K)";"wall split",6,"small","","";"open pipes",6,"small",20,2},${EXAMPLE_PARTS})`,
      shows: 'what 20 g of water in the same unit cost',
    },
    {
      formula: `=NARROWS.EVAC.PROJECT({"Unit","Rig","Port";"roof","wide","plant"},${EXAMPLE_PARTS},{"Unit","Size","Length (m)","From","To";"roof","5/8 in",40,"plant","coil"})`,
      shows: 'minutes until the far end of 40 m of pipe is at the target',
    },
  ],
  notes: [...PROJECT_NOTES, ...MODEL_NOTES.slice(1)],
  sources: [PULL_DOWN_SOURCE, ...DRY_OUT_SOURCES],
  body: ({ units, parts, runs, conditions }) => {
    const { work } = projectWork(conditions, runs);
    const findRig = rigFinder(parts);
    const rows = units.units.map((unit): Cell[] => {
      const target = unit.target ?? conditions.target;
      const volume = unit.fault === undefined ? volumeOf(unit, runs) : faultWords(unit.fault);
      const failed = (why: string): Cell[] => {
        const none = noAnswer(why);
        const shown = typeof volume === 'number' ? volume : '';
        const aim = unit.fault === undefined ? target : '';
        return [unit.name, unit.count, unit.rig, shown, aim, none, '', '', why, none, none, '', '', '', '', ''];
      };
      if (typeof volume === 'string') return failed(volume);
      const rig = findRig(unit.rig);
      if (rig instanceof Fault) return failed(faultWords(rig));
      const worked = work(unit, rig, volume, target);
      if (worked instanceof Fault) return failed(faultWords(worked));
      const { plan, seconds, wet, line, total } = worked;
      const plain = wet === undefined && line === undefined && total === seconds;
      const verdict = plain
        ? REACHES_TARGET
        : verdictOf(worked, unit.ambient ?? conditions.ambientTemperature, conditions.reportUnits);
      const none = total instanceof Fault ? noAnswer(verdict) : undefined;
      return [
        unit.name,
        unit.count,
        rig.name,
        volume,
        target,
        seconds,
        plan.limiting?.name ?? rig.pump.name,
        plan.limiting?.share ?? '',
        verdict,
        wet?.dry ?? none ?? 0,
        total instanceof Fault ? none : total,
        wet?.coldest ?? '',
        yesNo(wet?.froze),
        yesNo(wet?.overWaterLimit),
        line?.seconds ?? '',
        line?.node ?? '',
      ];
    });
    return { columns, rows };
  },
});
