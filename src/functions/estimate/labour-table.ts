import { labourMinutes } from '../../engine/estimate/labour.ts';
import { costOf, type HourCost, hourCost, roleCost, workingDays } from '../../engine/estimate/money.ts';
import { Fault } from '../../faults/issue.ts';
import { type Cell, noAnswer } from '../../tables/cells.ts';
import type { Conditions } from '../../tables/conditions.ts';
import type { RoleRow } from '../../tables/rates.ts';
import type { PartsTable } from '../../tables/rigs.ts';
import type { SpillColumn } from '../../tables/spill.ts';
import type { UnitRow } from '../../tables/units.ts';
import { defineFunction } from '../define.ts';
import { faultWords } from '../evacuation/project-verdict.ts';
import { conditions, optional, partsTable, ratesTable, runsTable, unitsTable } from '../parameters.ts';
import { textColumn, timeColumn } from '../rig/columns.ts';
import { EXAMPLE_PARTS } from '../rig/example-parts.ts';
import { hoursColumn, SECONDS_PER_HOUR, SECONDS_PER_MINUTE } from './columns.ts';
import { LABOUR_NOTES } from './notes.ts';
import { roleOf, rolesOf } from './roles.ts';
import { labourOf, travelMinutes, type UnitJobs, unitJobs } from './unit-job.ts';

const columns = [
  textColumn('Unit'),
  textColumn('Count'),
  textColumn('Rig'),
  timeColumn('Pull'),
  hoursColumn('Attended each'),
  hoursColumn('Waiting each'),
  hoursColumn('Attended'),
  hoursColumn('Waiting'),
  textColumn('Days'),
  textColumn('Cost'),
  textColumn('Gear cost'),
  textColumn('Other rig'),
  timeColumn('Other pull'),
  hoursColumn('Other attended'),
  hoursColumn('Other waiting'),
  textColumn('Other cost'),
  textColumn('Other gear cost'),
  hoursColumn('Saves attended'),
  hoursColumn('Saves waiting'),
  textColumn('Saves'),
  textColumn('Verdict'),
] as const satisfies readonly SpillColumn[];

type Name = (typeof columns)[number]['name'];

/** A row by the names of its cells; what is not named is blank. */
function rowOf(cells: Partial<Record<string, Cell>>): Cell[] {
  return columns.map(({ name }: { readonly name: Name }) => cells[name] ?? '');
}

/** Hours of all units of a row with one rig. */
interface OnRig extends HourCost {
  readonly count: number;
  readonly rig: string;
  readonly pull: number;
  /** hours of one unit, without the way */
  readonly each: HourCost;
}

interface WorkedRow {
  readonly unit: UnitRow;
  readonly own: OnRig | Fault;
  /** with the other rig, or again with its own where the row names none */
  readonly other: OnRig | Fault;
}

function onRig(unit: UnitRow, rigName: string, travel: number, jobs: UnitJobs, { labour }: Conditions): OnRig | Fault {
  const pull = jobs.pull(unit, rigName);
  if (pull instanceof Fault) return pull;
  const rig = jobs.rig(rigName);
  const one = labourMinutes(labourOf(unit.labour, labour), pull);
  const each = { attended: one.attended / SECONDS_PER_MINUTE, waiting: one.waiting / SECONDS_PER_MINUTE };
  return {
    rig: rig instanceof Fault ? rigName : rig.name,
    pull,
    each,
    count: unit.count,
    attended: unit.count * each.attended + travel / SECONDS_PER_MINUTE,
    waiting: unit.count * each.waiting,
  };
}

function sumOf(rows: readonly OnRig[]): HourCost {
  let attended = 0;
  let waiting = 0;
  for (const row of rows) {
    attended += row.attended;
    waiting += row.waiting;
  }
  return { attended, waiting };
}

/** Cost of the gear that rows with units need, each rig once; or the rig of which nobody said it. */
function gearCost(rows: readonly OnRig[], parts: PartsTable): number | { readonly unknown: string } {
  let sum = 0;
  for (const name of new Set(rows.filter(({ count }) => count > 0).map(({ rig }) => rig))) {
    const cost = parts.rigs.get(name)?.cost;
    if (cost === undefined) return { unknown: name };
    sum += cost;
  }
  return sum;
}

const hours = (value: number): number => value * SECONDS_PER_HOUR;

interface Task {
  readonly worked: readonly WorkedRow[];
  readonly parts: PartsTable;
  readonly hour: HourCost;
  readonly days: (attended: number) => number;
  /** some row names another rig */
  readonly compared: boolean;
}

function unitRow({ unit, own, other }: WorkedRow, { parts, hour, days, compared }: Task): Cell[] {
  const start = { Unit: unit.name, Count: unit.count };
  if (own instanceof Fault) {
    const why = faultWords(own);
    const none = noAnswer(why);
    return rowOf({ ...start, Rig: unit.rig, Pull: none, Attended: none, Waiting: none, Cost: none, Verdict: why });
  }
  const cells = {
    ...start,
    Rig: own.rig,
    Pull: own.pull * SECONDS_PER_MINUTE,
    'Attended each': hours(own.each.attended),
    'Waiting each': hours(own.each.waiting),
    Attended: hours(own.attended),
    Waiting: hours(own.waiting),
    Days: days(own.attended),
    Cost: costOf(own, hour),
    'Gear cost': parts.rigs.get(own.rig)?.cost ?? '',
  };
  if (!compared) return rowOf(cells);
  if (other instanceof Fault) {
    const why = faultWords(other);
    const none = noAnswer(why);
    const name = unit.labour.otherRig ?? '';
    const verdict = `other rig: ${why}`;
    return rowOf({
      ...cells,
      'Other rig': name,
      'Other pull': none,
      'Other cost': none,
      Saves: none,
      Verdict: verdict,
    });
  }
  return rowOf({ ...cells, ...otherCells(own, other, hour), ...ofOtherRig(other, parts) });
}

function otherCells(own: HourCost, other: HourCost, hour: HourCost): Partial<Record<Name, Cell>> {
  return {
    'Other attended': hours(other.attended),
    'Other waiting': hours(other.waiting),
    'Other cost': costOf(other, hour),
    'Saves attended': hours(own.attended - other.attended),
    'Saves waiting': hours(own.waiting - other.waiting),
    Saves: costOf(own, hour) - costOf(other, hour),
  };
}

function ofOtherRig({ rig, pull }: OnRig, parts: PartsTable): Partial<Record<Name, Cell>> {
  return {
    'Other rig': rig,
    'Other pull': pull * SECONDS_PER_MINUTE,
    'Other gear cost': parts.rigs.get(rig)?.cost ?? '',
  };
}

/** Rows below those of the units: the total, each role, gear, and labour and gear together. */
function endRows(task: Task, roles: readonly RoleRow[]): Cell[][] {
  const { worked, parts, hour, days, compared } = task;
  const own: OnRig[] = [];
  const other: OnRig[] = [];
  let kept = 0;
  for (const row of worked) {
    if (row.own instanceof Fault) continue;
    own.push(row.own);
    if (row.other instanceof Fault) kept += 1;
    other.push(row.other instanceof Fault ? row.own : row.other);
  }
  const sum = sumOf(own);
  const otherSum = sumOf(other);
  const left = worked.length - own.length;
  const words = [
    ...(left === 0 ? [] : [`without ${left} ${left === 1 ? 'row' : 'rows'} that could not be worked out`]),
    ...(kept === 0 ? [] : [`${kept} ${kept === 1 ? 'row keeps its' : 'rows keep their'} own rig beside the other`]),
  ];
  const beside = (ownHours: HourCost, otherHours: HourCost, cost: HourCost) =>
    compared ? otherCells(ownHours, otherHours, cost) : {};
  const total = rowOf({
    Unit: 'Total',
    Count: worked.reduce((count, row) => count + (row.own instanceof Fault ? 0 : row.unit.count), 0),
    Attended: hours(sum.attended),
    Waiting: hours(sum.waiting),
    Days: days(sum.attended),
    Cost: costOf(sum, hour),
    ...beside(sum, otherSum, hour),
    Verdict: words.join('; '),
  });
  const ofRoles = roles.map((role) => {
    const { name, attends, waits } = role;
    const ofRole = roleCost(roleOf(role));
    const { 'Other cost': otherCost = '', Saves = '' } = beside(sum, otherSum, ofRole);
    const people = { Attended: hours(attends * sum.attended), Waiting: hours(waits * sum.waiting) };
    return rowOf({ Unit: `Role: ${name}`, ...people, Cost: costOf(sum, ofRole), 'Other cost': otherCost, Saves });
  });
  return [total, ...ofRoles, ...gearRows(own, other, costOf(sum, hour), costOf(otherSum, hour), parts, compared)];
}

function gearRows(
  own: readonly OnRig[],
  other: readonly OnRig[],
  labour: number,
  otherLabour: number,
  parts: PartsTable,
  compared: boolean,
): Cell[][] {
  const gear = gearCost(own, parts);
  const otherGear = compared ? gearCost(other, parts) : 0;
  const missing = typeof gear === 'object' ? gear : typeof otherGear === 'object' ? otherGear : undefined;
  if (missing !== undefined)
    return [rowOf({ Unit: 'Gear', Verdict: `no Cost of the rig "${missing.unknown}" in the parts table` })];
  if (typeof gear === 'object' || typeof otherGear === 'object') return [];
  const row = (name: string, cost: number, otherCost: number): Cell[] =>
    rowOf({ Unit: name, Cost: cost, ...(compared ? { 'Other cost': otherCost, Saves: cost - otherCost } : {}) });
  return [row('Gear', gear, otherGear), row('Labour and gear', labour + gear, otherLabour + otherGear)];
}

export const labourTable = defineFunction({
  id: 'LABOUR.TABLE',
  group: 'Estimate',
  summary: 'Attended and waiting hours and cost of every unit of a project, and what another rig saves.',
  parameters: {
    units: unitsTable(),
    parts: partsTable(),
    rates: ratesTable(),
    runs: optional(runsTable()),
    conditions: conditions(),
  },
  result: {
    kind: 'table',
    columns,
    description:
      'one row a row of the units table, in the same order; below them Total, one row a role, Gear, and Labour and gear',
  },
  examples: [
    {
      formula: `=NARROWS.LABOUR.TABLE({"Unit","Count","Volume (L)","Rig","Other rig";"wall split",12,6,"small","wide";"cold room",2,35,"small","wide"},${EXAMPLE_PARTS},{"Role","Rate","Attends","Waits";"fitter",40,1,0.5;"helper",25,1,0})`,
      shows: 'hours and money for two kinds of units with a small hose, and what a wide hose saves',
    },
    {
      formula: `=NARROWS.LABOUR.TABLE({"Unit","Count","Volume (L)","Rig","Access","Area";"wall split",12,6,"wide",1,"ground floor";"roof unit",2,35,"wide",1.4,"roof"},${EXAMPLE_PARTS},{"Role","Rate";"fitter",40},,{"Hold",60,"min";"Charging",20,"min"})`,
      shows: 'hours with an hour of hold and charging, where the roof is hard to get at',
    },
  ],
  notes: [
    ...LABOUR_NOTES,
    'Attended each and Waiting each are for one unit; Attended, Waiting, Days and Cost are for the Count of the row, with its way between areas.',
    'Days: attended hours over Technicians of the conditions times the shortest day of the roles that attend. Waiting and nights are for CREW.PLAN.',
    'With a column Other rig in the units the same is worked out with that rig; a row that leaves it blank keeps its own. Saves is own less other: hours and money.',
    'The row of a role has its paid hours, people times hours, in Attended and Waiting.',
    'Gear cost is the sum of Cost of the rig’s parts. The row Gear counts every rig that is used once, so that the cost of gear stands against the cost of hours.',
    'A row that cannot be worked out shows #N/A and why; Total leaves it out and says so. Where only the other rig has no answer, the totals keep the row’s own rig.',
  ],
  body: ({ units, parts, rates, runs, conditions }) => {
    const jobs = unitJobs(parts, runs, conditions);
    const travel = travelMinutes(units.units, conditions.labour);
    const compared = units.units.some(({ labour }) => labour.otherRig !== undefined);
    const worked = units.units.map((unit, i): WorkedRow => {
      const own = onRig(unit, unit.rig, travel[i] ?? 0, jobs, conditions);
      const { otherRig } = unit.labour;
      const other = otherRig === undefined ? own : onRig(unit, otherRig, travel[i] ?? 0, jobs, conditions);
      return { unit, own, other };
    });
    const roles = rolesOf(rates);
    const { technicians } = conditions.labour;
    const days = (attended: number): number => workingDays(attended, technicians, roles);
    const task: Task = { worked, parts, hour: hourCost(roles), days, compared };
    return { columns, rows: [...worked.map((row) => unitRow(row, task)), ...endRows(task, rates.roles)] };
  },
});
