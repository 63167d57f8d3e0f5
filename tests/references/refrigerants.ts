import { refrigerantByName } from '../../src/engine/refrigerant/by-name.ts';
import { pressureClassOf } from '../../src/engine/refrigerant/pressure-class.ts';
import type { Refrigerant } from '../../src/engine/refrigerant/refrigerant.ts';
import { Fault } from '../../src/faults/issue.ts';
import { account, type Comparison, closeTo, same } from './account.ts';
import { allowance, type ReferenceRow } from './rows.ts';

const ZERO_CELSIUS = 273.15;

/** printed digits are known to half a unit of the last one */
function halfDigit(text: string): number {
  return 0.5 * 10 ** -(text.split('.')[1] ?? '').length;
}

/**
 * Cells of older tables that lie further from the equation of state than their row allows, with what they are allowed:
 * the saturation rows of the same file, computed from that equation, lie as far from them.
 */
const OLDER: Readonly<Record<string, number>> = {
  // the row of R-32 at 40 C from Tillner-Roth and Yokozeki has 73.268 kg/m3 where this table has 72.780
  'R-32 check 40 rho_vapour_kg_m3': 0.007,
  // a producer's table prints a bubble and a dew pressure 0.2 % apart, the pseudo-pure equation 0.4 %
  'R-410A check -40 p_dew_kPa': 0.006,
};

function cellOf(row: ReferenceRow, ours: number, cell: string, part: number): Comparison[] {
  const text = row.cells[cell] ?? '';
  if (text === '') return [];
  const theirs = Number(text);
  const older = OLDER[`${row.cells.refrigerant} ${row.cells.record} ${row.cells.t_C} ${cell}`];
  if (older !== undefined) return [closeTo(ours, theirs, older * theirs, `${cell}, a cell of an older table`)];
  const slack = allowance(row, theirs, row.tolerance.includes(';') ? part : 0) + halfDigit(text);
  return [closeTo(ours, theirs, slack, cell === 'value' ? '' : cell)];
}

function refusal(run: () => unknown): string {
  try {
    run();
  } catch (error) {
    if (error instanceof Fault) return 'no saturation';
  }
  return 'a pressure';
}

function saturation(row: ReferenceRow, fluid: Refrigerant): Comparison[] {
  const t = Number(row.cells.t_C) + ZERO_CELSIUS;
  // carbon dioxide above its critical point
  if (row.cells.p_bubble_kPa === '')
    return [
      same(
        refusal(() => fluid.bubblePressure(t)),
        'no saturation',
      ),
    ];
  return [
    ...cellOf(row, fluid.bubblePressure(t) / 1000, 'p_bubble_kPa', 0),
    ...cellOf(row, fluid.dewPressure(t) / 1000, 'p_dew_kPa', 0),
    ...cellOf(row, fluid.liquidDensity(t), 'rho_liquid_kg_m3', 1),
    ...cellOf(row, fluid.saturatedVapourDensity(t), 'rho_vapour_kg_m3', 2),
  ];
}

const at = (row: ReferenceRow): number => Number(row.cells.t_C) + ZERO_CELSIUS;

const CHECKS: Readonly<Record<string, (row: ReferenceRow, fluid: Refrigerant) => Comparison[]>> = {
  saturation,
  check: saturation,
  safety_class: (row, fluid) => [same(fluid.safetyClass, row.value)],
  molar_mass: (row, fluid) => cellOf(row, fluid.molarMass * 1000, 'value', 0),
  critical_T: (row, fluid) => cellOf(row, fluid.criticalTemperature - ZERO_CELSIUS, 'value', 0),
  critical_p: (row, fluid) => cellOf(row, fluid.criticalPressure / 1000, 'value', 0),
  viscosity_vapour: (row, fluid) => cellOf(row, fluid.vapourViscosity(at(row)) * 1e6, 'value', 0),
  // at 101.3 kPa: ours is that of the dilute vapour, 0.01 below, which is the row's own tolerance
  cp_over_cv: (row, fluid) => cellOf(row, fluid.heatCapacityRatio(at(row)), 'value', 0),
  epa_pressure_category: (row, fluid) => [same(pressureClassOf(fluid).pressureClass, row.value)],
};

/** Records that no function computes. */
const LISTED: Readonly<Record<string, string>> = {
  GWP100_AR4: 'warming potential: no function gives it',
  GWP100_AR5: 'warming potential: no function gives it',
};

const recordNameOf = (row: ReferenceRow): string => row.cells.record ?? '';

export const refrigerants = account(
  'refrigerants',
  [[/./, (row) => CHECKS[recordNameOf(row)]?.(row, refrigerantByName(row.cells.refrigerant ?? '')) ?? []]],
  {},
  (row) => LISTED[recordNameOf(row)],
);
