import { type Spread, spreadAt } from '../../engine/estimate/spread.ts';
import { Fault } from '../../faults/issue.ts';
import { shortNumber, wordsOf } from '../../faults/words.ts';
import { pchip } from '../../numerics/interpolate.ts';
import type { UnitRow } from '../../tables/units.ts';
import type { UnitJobs } from './unit-job.ts';

/**
 * How the pull of a row answers to its water and to Ambient: worked out at a few standard scores of both, ln(minutes) between them by a
 * monotone cubic.
 */

/** Standard scores of a factor, rising, 0 among them. */
interface Scores {
  /** at which pulls are worked out */
  readonly worked: readonly number[];
  /** to which they are refined */
  readonly fine: readonly number[];
}

export interface ResponseScores {
  readonly water: Scores;
  readonly ambient: Scores;
  readonly spreads: { readonly water: Spread | undefined; readonly ambient: Spread | undefined };
}

/** 2 n + 1 scores from -n steps to n steps; 0 is met without rounding. */
function evenScores(n: number, step: number): readonly number[] {
  return Array.from({ length: 2 * n + 1 }, (_, i) => (i - n) * step);
}

const ONE: Scores = { worked: [0], fine: [0] };
/**
 * How finely the answer is worked out, by the number of wet rows: a dry-out takes some 50 us (npm run bench). The coarser ones move a
 * percentile of one row's pull by 1 % or so, with spreads of 0.5 on water and 5 K on ambient.
 */
const GRIDS = [
  { rows: 200, water: evenScores(4, 0.6), ambient: evenScores(2, 1.2) },
  { rows: 2000, water: evenScores(2, 1.2), ambient: evenScores(1, 2) },
  { rows: Number.POSITIVE_INFINITY, water: evenScores(1, 1.7), ambient: evenScores(1, 1.7) },
] as const;
const FINE_PARTS = 8;

function spreads(spread: Spread | undefined): spread is Spread {
  return spread !== undefined && (spread.below > 0 || spread.above > 0);
}

function refined(worked: readonly number[]): Scores {
  const last = worked.at(-1) ?? 0;
  return { worked, fine: evenScores(FINE_PARTS, last / FINE_PARTS) };
}

/** @param wetRows how many rows will be asked for that have water */
export function responseScores(
  water: Spread | undefined,
  ambient: Spread | undefined,
  wetRows: number,
): ResponseScores {
  const grid = GRIDS.find(({ rows }) => wetRows <= rows) ?? GRIDS[0];
  return {
    water: spreads(water) ? refined(grid.water) : ONE,
    ambient: spreads(ambient) ? refined(grid.ambient) : ONE,
    spreads: { water, ambient },
  };
}

/**
 * Minutes at the fine scores: a line of ambient scores for each score of water, one after another; one number where neither
 * factor acts on the row. Or the first fault on the way.
 */
export function pullResponse(unit: UnitRow, jobs: UnitJobs, scores: ResponseScores): readonly number[] | Fault {
  const { water, ambient, spreads: of } = scores;
  const ownWater = jobs.waterOf(unit);
  const ownAmbient = jobs.ambientOf(unit);
  const wet = of.water !== undefined && ownWater > 0;
  const warm = of.ambient !== undefined && ownAmbient !== undefined;
  const waters = wet ? water.worked : ONE.worked;
  const ambients = warm ? ambient.worked : ONE.worked;
  const lines: (readonly number[])[] = [];
  for (const w of waters) {
    const times = of.water !== undefined && wet ? spreadAt(of.water, w) : undefined;
    const line: number[] = [];
    for (const a of ambients) {
      const shift = of.ambient !== undefined && warm ? spreadAt(of.ambient, a) : undefined;
      const changed = {
        ...unit,
        ...(times === undefined ? {} : { water: ownWater * times }),
        ...(shift === undefined ? {} : { ambient: (ownAmbient ?? 0) + shift }),
      };
      const pull = jobs.pull(changed, unit.rig);
      if (pull instanceof Fault) return told(pull, unit, times, shift);
      line.push(pull);
    }
    lines.push(warm ? refine(ambient, line) : line);
  }
  const width = lines[0]?.length ?? 1;
  if (waters.length === 1 && ambients.length === 1) return lines[0] ?? [];
  const columns = Array.from({ length: width }, (_, i) => {
    const column = lines.map((line) => line[i] ?? 0);
    return wet ? refine(water, column) : column;
  });
  // a factor that acts on other rows but not on this one leaves it as it is
  const rowCount = water.fine.length;
  return Array.from({ length: rowCount }, (_, w) =>
    Array.from({ length: ambient.fine.length }, (_, a) => {
      const column = columns[Math.min(a, width - 1)] ?? [];
      return column[Math.min(w, column.length - 1)] ?? 0;
    }),
  ).flat();
}

/** Minutes at the worked scores, refined in their logarithms. */
function refine({ worked, fine }: Scores, minutes: readonly number[]): readonly number[] {
  if (worked.length === 1) return minutes;
  const curve = pchip(worked, minutes.map(Math.log));
  return fine.map((score) => Math.exp(curve.value(score)));
}

/** The fault with what was changed, so that a reader sees why a row that works by itself does not here. */
function told(fault: Fault, unit: UnitRow, times: number | undefined, shift: number | undefined): Fault {
  const changes = [
    ...(times === undefined || times === 1 ? [] : [`${shortNumber(Number(times.toPrecision(3)))} times its water`]),
    ...(shift === undefined || shift === 0
      ? []
      : [`Ambient ${shift > 0 ? '+' : ''}${shortNumber(Number(shift.toPrecision(3)))} °C`]),
  ];
  if (changes.length === 0) return fault;
  const { what, todo } = wordsOf(fault.issue);
  const issue = {
    kind: 'no-solution',
    reason: `"${unit.name}" has no answer with ${changes.join(' and ')}, which its factors allow: ${what.replace(/\.$/u, '')}`,
    todo: `Narrow the factor, or mend the row. ${todo}`,
  } as const;
  return new Fault(issue, { table: 'units', row: unit.row });
}
