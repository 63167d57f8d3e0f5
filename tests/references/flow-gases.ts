import { meanFreePath } from '../../src/engine/flow/regime.ts';
import { MOLAR_GAS_CONSTANT } from '../../src/engine/gas/constants.ts';
import { gasState } from '../../src/engine/gas/gas.ts';
import { account, type Comparison, closeTo, near } from './account.ts';
import { numberOf, type ReferenceRow } from './rows.ts';

const gasOf = (row: ReferenceRow, temperature = numberOf(row, 'T')) =>
  gasState(row.inputs.get('gas') ?? '', temperature);
const MICRO = 1e-6;

/** eta0 (T/T0)^1.5 (T0 + S)/(T + S) with the row's constants, against the engine over 250-333 K. */
function sutherland(row: ReferenceRow): Comparison[] {
  const eta0 = numberOf(row, 'eta0_uPas');
  const t0 = numberOf(row, 'T0_K');
  const s = Number(row.value);
  // steam's constants belong to 350 K and above
  return (row.inputs.get('gas') === 'steam' ? [350, 400] : [250, 273.15, 293.15, 333.15]).map((t) =>
    near(
      row,
      gasState(row.inputs.get('gas') ?? '', t).viscosity / MICRO,
      (eta0 * (t / t0) ** 1.5 * (t0 + s)) / (t + s),
      0,
      `viscosity at ${t} K`,
    ),
  );
}

export const gases = account(
  'gases',
  [
    [/^M-/, (row) => near(row, gasOf(row, 293.15).molarMass * 1000)],
    [/^G-/, (row) => near(row, gasOf(row).heatCapacityRatio)],
    [/^VX?-/, (row) => near(row, gasOf(row).viscosity / MICRO)],
    [
      /^SU-01$/,
      (row) =>
        [250, 273.15, 293.15, 333.15].map((t) =>
          near(
            row,
            gasState('air', t).viscosity,
            (1.458e-6 * t ** 1.5) / (t + Number(row.value)),
            0,
            `viscosity at ${t} K`,
          ),
        ),
    ],
    [/^SU-0[234]$/, sutherland],
    [
      /^SU-0[5678]$/,
      (row) => {
        const gas = row.inputs.get('gas') ?? '';
        const rise = Math.log(gasState(gas, 333).viscosity / gasState(gas, 250).viscosity);
        return near(row, rise / Math.log(333 / 250));
      },
    ],
    [/^MFP-/, (row) => near(row, meanFreePath(gasState('air', numberOf(row, 'T')), 1))],
    [/^VB-/, (row) => near(row, (2 / Math.sqrt(Math.PI)) * gasState('air', numberOf(row, 'T')).probableSpeed)],
    [/^RU-/, (row) => closeTo(MOLAR_GAS_CONSTANT, Number(row.value), 0)],
  ],
  Object.fromEntries(
    Array.from({ length: 12 }, (_, i) => [
      `GR-${String(i + 1).padStart(2, '0')}`,
      'real-gas ratio of specific heats at atmospheric pressure: the flow takes the gas as perfect',
    ]),
  ),
);
