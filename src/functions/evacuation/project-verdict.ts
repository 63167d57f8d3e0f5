import { TRIPLE_TEMPERATURE } from '../../engine/gas/water.ts';
import { Fault } from '../../faults/issue.ts';
import { issueWords, shortNumber } from '../../faults/words.ts';
import type { ReportUnits } from '../../tables/spill.ts';
import { fromSI } from '../../units/quantity.ts';
import type { Worked } from './project-work.ts';

const SECONDS_PER_MINUTE = 60;
/** Part of a time that is told as a time of its own. */
const TELLING = 1e-2;

export const REACHES_TARGET = 'reaches target';

export function faultWords({ issue, place }: Fault): string {
  return issueWords(issue, place);
}

function minutes(seconds: number): string {
  return `${shortNumber(Number((seconds / SECONDS_PER_MINUTE).toPrecision(3)))} min`;
}

function degrees(kelvin: number, units: ReportUnits): string {
  const [unit, sign] = units === 'inch' ? (['F', '°F'] as const) : (['C', '°C'] as const);
  return `${Math.round(fromSI(kelvin, unit, 'temperature')) + 0} ${sign}`;
}

/** What decides the time of a row, in words, and what to do about it. */
export function verdictOf({ seconds, wet, line, total }: Worked, ambient: number, units: ReportUnits): string {
  if (total instanceof Fault) return faultWords(total);
  const lineDecides = line !== undefined && line.seconds > (1 + TELLING) * Math.max(seconds, through(wet));
  const ofLine = lineDecides ? `the line decides: "${line.node}" is at target after ${minutes(line.seconds)}` : '';
  if (wet === undefined) return lineDecides ? ofLine : REACHES_TARGET;
  const words: string[] = [];
  if (lineDecides) words.push(`dry after ${minutes(wet.dry)}`, ofLine);
  else if (wet.toTarget > TELLING * total)
    words.push(`dry after ${minutes(wet.dry)}, at target after ${minutes(total)}`);
  else words.push(`water decides: dry after ${minutes(wet.dry)}`);
  if (wet.froze)
    words.push(
      ambient < TRIPLE_TEMPERATURE
        ? `all ice, down to ${degrees(wet.coldest, units)}: warm it`
        : `water froze, down to ${degrees(wet.coldest, units)}: warm it or break with nitrogen`,
    );
  if (wet.overWaterLimit === true) words.push('pump’s water limit passed: open its gas ballast');
  return words.join('; ');
}

function through(wet: Worked['wet']): number {
  return wet === undefined ? 0 : wet.dry + wet.toTarget;
}
