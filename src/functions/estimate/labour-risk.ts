import { riskWork } from '../../engine/estimate/labour.ts';
import { costOf, type HourCost, hourCost, workingDays } from '../../engine/estimate/money.ts';
import { meanOf, type Quantile, quantilesOf, type RiskRow, sampleRisk } from '../../engine/estimate/risk.ts';
import { Fault, raise } from '../../faults/issue.ts';
import { type Cell, isBlank } from '../../tables/cells.ts';
import type { FactorsTable } from '../../tables/factors.ts';
import type { SpillColumn } from '../../tables/spill.ts';
import { plainName } from '../../tables/table.ts';
import type { UnitRow } from '../../tables/units.ts';
import { defineFunction } from '../define.ts';
import { conditions, factorsTable, optional, partsTable, ratesTable, runsTable, unitsTable } from '../parameters.ts';
import { shareColumn, textColumn } from '../rig/columns.ts';
import { EXAMPLE_PARTS } from '../rig/example-parts.ts';
import { hoursColumn, SECONDS_PER_HOUR } from './columns.ts';
import { LABOUR_NOTES } from './notes.ts';
import { pullResponse, type ResponseScores, responseScores } from './pull-response.ts';
import { rolesOf } from './roles.ts';
import { labourOf, travelMinutes, type UnitJobs, unitJobs } from './unit-job.ts';

const columns = [
  textColumn('Figure'),
  hoursColumn('Attended'),
  hoursColumn('Attended error'),
  hoursColumn('Waiting'),
  hoursColumn('Waiting error'),
  textColumn('Days'),
  textColumn('Days error'),
  textColumn('Cost'),
  textColumn('Cost error'),
  shareColumn('Share of spread'),
  textColumn('Rank'),
] as const satisfies readonly SpillColumn[];

const SCENARIOS = 10_000;
const FEWEST_SCENARIOS = 2000;
/** Work budget: rows times scenarios. */
const ROW_SCENARIOS = 10_000_000;

/** Rows with units in them, their pulls, and which of them share their draws. */
function riskRows(
  units: readonly UnitRow[],
  travel: readonly number[],
  jobs: UnitJobs,
  scores: ResponseScores,
  labour: (unit: UnitRow) => ReturnType<typeof riskWork>,
): RiskRow[] {
  const groups = new Map<string, number>();
  const groupOf = ({ labour: { kind }, row }: UnitRow): number => {
    const key = isBlank(kind) || kind === undefined ? `row ${row}` : `kind ${plainName(kind)}`;
    const known = groups.get(key);
    if (known !== undefined) return known;
    groups.set(key, groups.size);
    return groups.size - 1;
  };
  const answers = new Map<string, ArrayLike<number>>();
  const rows: RiskRow[] = [];
  units.forEach((unit, i) => {
    if (unit.fault !== undefined) throw unit.fault;
    if (unit.count === 0) return;
    const key = pullKey(unit);
    const pull = answers.get(key) ?? pullResponse(unit, jobs, scores);
    if (pull instanceof Fault) throw pull;
    answers.set(key, pull);
    const fixed = (travel[i] ?? 0) / unit.count;
    rows.push({ count: unit.count, group: groupOf(unit), fixed, pull, ...labour(unit) });
  });
  return rows;
}

/** All that the pull of a row depends on. */
function pullKey({ name, volume, rig, target, water, ambient, heat, port }: UnitRow): string {
  // runs are found by the name of the unit
  const ofRuns = volume === undefined || port !== undefined ? name : '';
  return JSON.stringify([rig, volume, target, water, ambient, heat, port, ofRuns]);
}

function spreadOn(factors: FactorsTable, on: 'water' | 'ambient') {
  return factors.factors.find((factor) => factor.on === on)?.spread;
}

interface Figures {
  readonly attended: readonly Quantile[];
  readonly waiting: readonly Quantile[];
  readonly cost: readonly Quantile[];
}

function figureRow(name: string, figures: Figures, i: number, days: (attended: number) => number): Cell[] {
  const hours = (value: number | undefined): number => (value ?? 0) * SECONDS_PER_HOUR;
  const { attended, waiting, cost } = figures;
  const [a, w, c] = [attended[i], waiting[i], cost[i]];
  return [
    name,
    hours(a?.value),
    hours(a?.error),
    hours(w?.value),
    hours(w?.error),
    days(a?.value ?? 0),
    days(a?.error ?? 0),
    c?.value ?? 0,
    c?.error ?? 0,
    '',
    '',
  ];
}

/** Factors by their share of the spread, largest first. */
function factorRows({ factors }: FactorsTable, alone: readonly number[]): Cell[][] {
  const sum = alone.reduce((total, variance) => total + variance, 0);
  return factors
    .map(({ name }, i) => ({ name, share: sum > 0 ? (alone[i] ?? 0) / sum : 0 }))
    .sort((a, b) => b.share - a.share)
    .map(({ name, share }, i) => [name, '', '', '', '', '', '', '', '', share, i + 1]);
}

/** Waiting hours in attended hours of the same cost; 0 where attended hours cost nothing. */
function waitingWeight({ attended, waiting }: HourCost): number {
  return attended > 0 ? waiting / attended : 0;
}

export const labourRisk = defineFunction({
  id: 'LABOUR.RISK',
  group: 'Estimate',
  summary: 'How far hours, days and cost of a project may be off: P10, P50, P80 and P90, and which factor drives them.',
  parameters: {
    units: unitsTable(),
    parts: partsTable(),
    rates: ratesTable(),
    factors: factorsTable(),
    runs: optional(runsTable()),
    conditions: conditions(),
  },
  result: {
    kind: 'table',
    columns,
    description: 'one row a percentile, then Mean, then one row a factor, the one that spreads the cost most first',
  },
  examples: [
    {
      formula: `=NARROWS.LABOUR.RISK({"Unit","Count","Volume (L)","Rig","Water (g)","Heat (W/K)","Set-up (min)";"wall split",12,6,"wide",5,2,20;"cold room",2,35,"wide",20,2,45},${EXAMPLE_PARTS},{"Role","Rate","Waits";"fitter",40,0.5},{"Factor","On","Low","Likely","High";"wet pipes","water",0.4,1,3;"ladders","access",0.9,1,1.5})`,
      shows:
        'hours and cost that are not passed in 10, 50, 80 and 90 of 100 cases, and whether wet pipes or ladders count for more',
    },
    {
      formula: `=NARROWS.LABOUR.RISK({"Unit","Count","Volume (L)","Rig";"wall split",12,6,"wide"},${EXAMPLE_PARTS},{"Role","Rate";"fitter",40},{"Factor","On","Likely","Spread","Shared";"new crew","learning",1.1,0.2,"yes";"leak search","leaks",5,10,"no"},,{"Percentiles","50, 95","";"Technicians",2,""})`,
      shows: 'median and 95th percentile where the whole crew is new to the work',
    },
  ],
  notes: [
    'Factors: water multiplies the row’s water, ambient is added to its Ambient, access and learning multiply its attended time, leaks adds attended minutes to each unit. Low, Likely and High are the 10th, 50th and 90th percentile: lognormal for multiples with a width of its own on each side, normal for what is added. Minutes for leaks are never below 0.',
    'Each row of the units draws its own value of every factor, the same for all its units; rows of one Kind share their draws; a Shared factor has one draw for the whole project. Draws of different factors are independent.',
    'Water acts on rows that have water, ambient on rows whose gas is at Ambient (see EVAC.PROJECT). Pulls are worked out at several values of both and interpolated; fewer of them where more than 200 rows have water.',
    'Some 10,000 scenarios by quasi-random points (lattices) in eight independent sets, fewer in projects of more than 1,000 rows. The same input gives the same answer. An error is the standard error from the scatter between the sets.',
    'Days: attended hours over Technicians of the conditions times the shortest day of the roles that attend.',
    'Share of spread: variance of the cost when that factor alone varies, as a part of the sum of these; of the attended hours where they cost nothing. Rank 1 drives the spread most.',
    'A row that cannot be worked out is a fault of the whole, since its hours would be missing in the sums. LABOUR.TABLE shows such rows one by one.',
    ...LABOUR_NOTES,
  ],
  sources: [
    'Sloan and Joe, Lattice Methods for Multiple Integration (1994).',
    'Hyndman and Fan, The American Statistician 50 (1996) 361, quantiles of type 7.',
  ],
  body: ({ units, parts, rates, factors, runs, conditions }) => {
    const { labour } = conditions;
    const jobs = unitJobs(parts, runs, conditions);
    const wetRows = units.units.filter((unit) => jobs.waterOf(unit) > 0).length;
    const scores = responseScores(spreadOn(factors, 'water'), spreadOn(factors, 'ambient'), wetRows);
    const travel = travelMinutes(units.units, labour);
    const rows = riskRows(units.units, travel, jobs, scores, (unit) => riskWork(labourOf(unit.labour, labour)));
    if (rows.length === 0)
      raise({ kind: 'no-solution', reason: 'every Count of the units is 0', todo: 'Give the number of units.' });
    const roles = rolesOf(rates);
    const hour = hourCost(roles);
    const sample = sampleRisk(rows, factors.factors, {
      waterScores: scores.water.fine,
      ambientScores: scores.ambient.fine,
      scenarios: Math.max(FEWEST_SCENARIOS, Math.min(SCENARIOS, ROW_SCENARIOS / rows.length)),
      waitingWeight: waitingWeight(hour),
    });
    const { attended, waiting, sets } = sample;
    const cost = attended.map((value, i) => costOf({ attended: value, waiting: waiting[i] ?? 0 }, hour));
    const of = (values: Float64Array): readonly Quantile[] => [
      ...quantilesOf(values, sets, labour.percentiles),
      meanOf(values, sets),
    ];
    const figures = { attended: of(attended), waiting: of(waiting), cost: of(cost) };
    const days = (value: number): number => workingDays(value, labour.technicians, roles);
    const names = [...labour.percentiles.map((share) => `P${Number((100 * share).toPrecision(12))}`), 'Mean'];
    return {
      columns,
      rows: [...names.map((name, i) => figureRow(name, figures, i, days)), ...factorRows(factors, sample.alone)],
    };
  },
});
