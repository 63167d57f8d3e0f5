import { findGas } from '../../src/engine/gas/gas.ts';
import { convert, fromUnit } from '../../src/units/quantity.ts';
import { ZERO_CELSIUS } from '../../src/units/table.ts';
import { account, type Comparison, closeTo } from './account.ts';
import type { ReferenceRow } from './rows.ts';

/** Names of the file that say more than the unit. */
const UNIT_NAMES: ReadonlyMap<string, string> = new Map([
  ['mmHg (conventional)', 'mmHg'],
  ['micron (um Hg)', 'micron'],
  ['inHg (conventional, 32 F)', 'inHg'],
  ['inH2O (conventional)', 'inH2O'],
  ['kgf/cm2 (at)', 'kgf/cm2'],
  ['oz (avoirdupois)', 'oz'],
  ['sccm (0 C, 101.325 kPa)', 'sccm'],
  ['sccm (0 C)', 'sccm'],
  ['Pa m3/s at 0 C', 'Pa m3/s'],
  ['Btu (IT)', 'Btu'],
  ['cal (IT)', 'cal'],
  ['ton of refrigeration (12000 Btu/h)', 'ton of refrigeration'],
  ['hp (550 ft lbf/s)', 'hp'],
]);

/** A unit of the last printed digit (some rows are cut off rather than rounded), or what the row's own tolerance allows, whichever is more. */
function slack(row: ReferenceRow, value: number): number {
  if (row.tolerance === 'exact') return Math.abs(value) * 1e-12;
  const { factor = '' } = row.cells;
  const [mantissa = '', exponent = '0'] = factor.split('e');
  const decimals = mantissa.includes('.') ? mantissa.length - mantissa.indexOf('.') - 1 : 0;
  const printed = 10 ** (Number(exponent) - decimals);
  const relative = Number(/rel:([0-9.e-]+)/.exec(row.tolerance)?.[1] ?? 0);
  return Math.max(Math.abs(value) * relative, row.cells.exact === 'yes' ? 0 : printed);
}

/** Rows that are a rule rather than a factor: what they say, worked out at one value. */
const RULES: ReadonlyMap<string, () => readonly [ours: number, theirs: number]> = new Map([
  ['psig', () => [convert(10, 'psig', 'psia'), 10 + 14.69595] as const],
  ['inHg vacuum v', () => [convert(25, 'inHg vac', 'Pa'), 101325 - 3386.389 * 25] as const],
  ['F', () => [convert(212, 'F', 'C'), (212 - 32) / 1.8] as const],
  ['C', () => [convert(100, 'C', 'K'), 100 + 273.15] as const],
  [
    'g/yr of R-134a',
    () => {
      const massFlow = fromUnit(1, 'g/yr', 'mass flow');
      const specificGasConstant = 8.31446261815324 / findGas('R-134a').molarMass;
      return [massFlow * specificGasConstant * 293.15, 7.57e-7] as const;
    },
  ],
  ['standard gravity', () => [convert(1, 'standard gravity', 'm/s2'), 9.80665] as const],
  ['molar gas constant R', () => [fromUnit(1, 'mol/s', 'throughput') / ZERO_CELSIUS, 8.31446261815324] as const],
]);

function unitRow(row: ReferenceRow): Comparison {
  const { from = '', to = '', quantity, factor = '' } = row.cells;
  const rule = quantity === 'temperature difference' ? undefined : RULES.get(from);
  if (rule !== undefined) {
    const [ours, theirs] = rule();
    const relative = row.tolerance === 'exact' ? 1e-12 : from === 'g/yr of R-134a' ? 1e-3 : 1e-6;
    return closeTo(ours, theirs, Math.abs(theirs) * relative, 'the rule, worked out at one value');
  }
  const mark = quantity === 'temperature difference' ? 'delta ' : '';
  const name = (unit: string) => mark + (UNIT_NAMES.get(unit) ?? unit);
  return closeTo(convert(1, name(from), name(to)), Number(factor), slack(row, Number(factor)));
}

export const units = account('units', [[/./, unitRow]]);
