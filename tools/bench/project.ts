import { callFunction } from '../../src/functions/adapter.ts';
import { evacProject } from '../../src/functions/evacuation/project.ts';
import { readConditions } from '../../src/tables/conditions.ts';
import { readParts } from '../../src/tables/rigs.ts';
import { readUnits } from '../../src/tables/units.ts';
import { type BenchRow, partsRange, RIGS, timed, unitsRange } from './common.ts';

const UNITS = 100_000;

export function benchProject(rows: BenchRow[]): void {
  const partsCells = partsRange();
  const unitsCells = unitsRange(UNITS);
  const values = { units: readUnits(unitsCells), parts: readParts(partsCells), conditions: readConditions(undefined) };
  const body = timed(() => {
    evacProject.body({ ...values, runs: undefined });
  });
  const reading = timed(() => {
    readUnits(unitsCells);
  });
  const whole = timed(() => {
    callFunction(evacProject, [unitsCells, partsCells]);
  });
  const perUnit = ({ best, middle }: { best: number; middle: number }): string =>
    `${((best * 1e3) / UNITS).toFixed(2)} us (middle ${((middle * 1e3) / UNITS).toFixed(2)})`;
  const what = `EVAC.PROJECT, ${UNITS} units x ${RIGS} rigs, per unit`;
  rows.push([`${what}: times and rows, curves there`, perUnit(body), 'under 10 us']);
  rows.push([`${what}: reading the units range`, perUnit(reading), '']);
  rows.push([`${what}: whole call, range to range`, perUnit(whole), '']);
}
