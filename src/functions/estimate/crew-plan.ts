import { type CrewSite, nextWorking, type Placement } from '../../engine/estimate/crew.ts';
import { type CrewPlan, planCrews } from '../../engine/estimate/crew-plan.ts';
import { type Cell, noAnswer } from '../../tables/cells.ts';
import { clockText, dayOf } from '../../tables/clock.ts';
import type { SpillColumn } from '../../tables/spill.ts';
import type { UnitRow } from '../../tables/units.ts';
import { defineFunction } from '../define.ts';
import { faultWords } from '../evacuation/project-verdict.ts';
import { conditions, crewsTable, optional, partsTable, runsTable, unitsTable } from '../parameters.ts';
import { textColumn } from '../rig/columns.ts';
import { EXAMPLE_PARTS } from '../rig/example-parts.ts';
import { hoursColumn, SECONDS_PER_MINUTE } from './columns.ts';
import { crewSite, MOST_PLANNED, type PlannedJobs, plannedJobs } from './crew-jobs.ts';
import { unitJobs } from './unit-job.ts';

const columns = [
  textColumn('Crew'),
  textColumn('Unit'),
  textColumn('Area'),
  textColumn('Rig'),
  textColumn('Day'),
  textColumn('Start'),
  textColumn('Finish day'),
  textColumn('Finish'),
  hoursColumn('Begins'),
  hoursColumn('Lasts'),
  textColumn('Overnight'),
  textColumn('Note'),
] as const satisfies readonly SpillColumn[];

/** From one moment to another, minutes from midnight of day 1, as the cells Day to Lasts. */
function span(start: number, finish: number): Cell[] {
  return [
    dayOf(start),
    clockText(start),
    dayOf(finish),
    clockText(finish),
    start * SECONDS_PER_MINUTE,
    (finish - start) * SECONDS_PER_MINUTE,
  ];
}

function unitRows({ jobs, units }: PlannedJobs, placements: readonly Placement[], site: CrewSite): Cell[][] {
  const begun = new Map<UnitRow, number>();
  return placements.map(({ job, crew, start, finish, overnight }) => {
    const unit = units[job];
    if (unit === undefined || jobs[job] === undefined) return [];
    const number = (begun.get(unit) ?? 0) + 1;
    begun.set(unit, number);
    const name = unit.count > 1 ? `${unit.name} (${number} of ${unit.count})` : unit.name;
    const area = unit.labour.area ?? '';
    const times = span(start, finish);
    return [site.crews[crew]?.name ?? '', name, area, unit.rig, ...times, overnight ? 'yes' : 'no', ''];
  });
}

function leftOutRows({ leftOut }: PlannedJobs): Cell[][] {
  return leftOut.map(({ unit, fault }) => {
    const why = faultWords(fault);
    const none = noAnswer(why);
    const { area = '' } = unit.labour;
    return ['', unit.name, area, unit.rig, none, none, none, none, none, none, '', why];
  });
}

const HOUR = 60;

function endRows({ schedule, bounds, firstCome, tried, everyChoice }: CrewPlan, plan: PlannedJobs, site: CrewSite) {
  const begin = site.crews.reduce(
    (least, crew) => Math.min(least, nextWorking(crew, crew.start, 0)),
    Number.POSITIVE_INFINITY,
  );
  const { finish, placements, checks, travel } = schedule;
  const above = (bound: number): string => {
    const percent = Math.max(0, (100 * (finish - bound)) / (bound - begin));
    return percent < 0.05 ? 'the plan ends then: no plan is sooner' : `the plan takes ${percent.toFixed(1)} % longer`;
  };
  const row = (label: string, moment: number, note: string): Cell[] => [
    label,
    '',
    '',
    '',
    ...span(begin, moment),
    '',
    note,
  ];
  const days = dayOf(finish) - dayOf(begin) + 1;
  const left = plan.leftOut.length;
  const words = [
    `${placements.length} ${placements.length === 1 ? 'unit' : 'units'} in ${days} working ${days === 1 ? 'day' : 'days'}`,
    everyChoice ? 'every choice was followed up' : `best of ${tried} ${tried === 1 ? 'plan' : 'plans'}`,
    ...(left === 0 ? [] : [`without ${left} ${left === 1 ? 'row' : 'rows'} that could not be planned`]),
  ];
  const saved = firstCome - finish;
  const sooner = saved > 0.5 ? `the plan ends ${(saved / HOUR).toFixed(1)} h sooner` : 'the plan ends at the same time';
  const hours = (label: string, minutes: number, note: string): Cell[] => {
    return [label, '', '', '', '', '', '', '', '', minutes * SECONDS_PER_MINUTE, '', note];
  };
  return [
    row('Finish of all', finish, words.join('; ')),
    row('First come', firstCome, `in the order of the units table: ${sooner}`),
    row('Bound: attended work', bounds.attendedWork, above(bounds.attendedWork)),
    row('Bound: rig time', bounds.rigTime, above(bounds.rigTime)),
    row('Bound: longest unit', bounds.longestUnit, above(bounds.longestUnit)),
    hours('Checks', checks, 'hours of technicians for looks at pumps that were made'),
    hours('Travel', travel, 'hours of technicians on the way between areas'),
  ];
}

export const crewPlan = defineFunction({
  id: 'CREW.PLAN',
  group: 'Estimate',
  summary:
    'A schedule for crews with few technicians and rigs: who evacuates which unit when, what runs overnight, and how near to the best it is.',
  parameters: {
    units: unitsTable(),
    parts: partsTable(),
    crews: crewsTable(),
    runs: optional(runsTable()),
    conditions: conditions(),
  },
  result: {
    kind: 'table',
    columns,
    description:
      'one row a unit, by its start; then rows that cannot be planned; then Finish of all, First come, three bounds, Checks and Travel',
  },
  examples: [
    {
      formula: `=NARROWS.CREW.PLAN({"Unit","Count","Volume (L)","Rig","Area";"wall split",4,6,"small","ground floor";"cold room",2,35,"wide","roof"},${EXAMPLE_PARTS},{"Crew","Technicians","Rigs","Day start","Day end";"north",1,2,"08:00","16:00"})`,
      shows: 'six units by one technician with two sets of gear',
    },
    {
      formula: `=NARROWS.CREW.PLAN({"Unit","Volume (L)","Rig";"plant",1500,"small"},${EXAMPLE_PARTS},{"Crew","Technicians","Rigs","Overnight";"south",1,1,"yes"})`,
      shows: 'a pull that runs through the nights',
    },
  ],
  notes: [
    'The rule: whenever a technician is free in the crew’s day, the crew does the first of these that there is and that fits into the rest of the day: the next step of the unit that has waited longest; a check of a pump that is due; the set-up of the first unit in the list, where a set of gear is free. Of the free technicians one in the unit’s area goes (of several the one who came free last, since the others may be on their way), else the one who can be there first. Crews ask in the order of their table.',
    'The list begins as the units stand in their table (First come). Then other lists are tried, longest first, shortest first and area by area among them, and two changes of the rule: units are begun before others are gone on with; where no unit can be packed up today, the one that takes longest is begun, in the area first. The plan that ends first is shown, then the one with less travel. With up to 720 different orders all are tried, and then, up to a limit of work, every choice at every moment, waiting on purpose too; with more, there are changes of the best within a fixed amount of work. Finish of all says where every choice was followed up: then no plan by these rules is sooner; looks at pumps, made whenever somebody is free, are part of them. The same tables give the same plan.',
    'Whoever waits walks meanwhile: a technician sets off to another area as soon as he is free, so that he stands there when the next step is due or comes as soon as he can. He walks within the crew’s day and without a break: in the evening where the whole way fits in, else in the morning. Start of a unit is when it gets its gear and somebody to set it up; what is left of the way then is part of the unit. Gear has no place and no way of its own.',
    'The plan is never later than First come, nor than the same crews without the last ones of the table. One more technician or rig can by such rules make a plan a little later (a known anomaly of list scheduling).',
    'A unit holds a set of gear of its crew, of any rig, from set-up to pack-up. An attended step is not broken off: it fits into the day, with the way to it, or waits for the next. Pulls and holds go on without anybody; with Overnight no, a unit is begun only where all of it fits into the day, and a pull only where its end does; a unit that was kept waiting may then stand shut until the morning.',
    'Checks during pulls are made by a free technician in the crew’s day; those that fall in the night or before the last one was made are left out, so that they can be fewer than in LABOUR.TABLE. Units of one Area are reached without a way; a technician’s first way is not counted.',
    'Steps and minutes are those of LABOUR.TABLE. Day counts working days from 1; every day is a working day. Begins is in hours from midnight at the start of day 1, so that day 2, 08:00 is 32 h; Begins and Lasts make the bars of a chart.',
    'The bounds: no plan ends before all attended steps, shared by all technicians without a gap; nor before all time on rigs, shared by all rigs; nor before the unit that takes longest, begun at once. Checks and ways are left out of them. A bound within the night counts as the first moment of the next day at which a unit can be packed up. Percent is of the time from the first start.',
    `Most units: ${MOST_PLANNED} in all.`,
  ],
  sources: [
    'List scheduling and its anomalies: R. L. Graham, Bounds on multiprocessing timing anomalies, SIAM J. Appl. Math. 17 (1969).',
  ],
  body: ({ units, parts, crews, runs, conditions }) => {
    const site = crewSite(crews, conditions);
    const planned = plannedJobs(units.units, site, unitJobs(parts, runs, conditions));
    const { jobs, leftOut } = planned;
    if (jobs.length === 0) {
      const [first] = leftOut;
      if (first !== undefined) throw first.fault;
      return { columns, rows: [['no units', ...Array.from({ length: columns.length - 1 }, () => '')]] };
    }
    const plan = planCrews(jobs, site);
    const rows = [
      ...unitRows(planned, plan.schedule.placements, site),
      ...leftOutRows(planned),
      ...endRows(plan, planned, site),
    ];
    return { columns, rows };
  },
});
