import { describe, expect, it } from 'vitest';
import { lowestPressure, pullDownTime } from '../../src/engine/evacuate/pulldown.ts';
import { pumpNeeded } from '../../src/engine/evacuate/pump-needed.ts';
import { pressureAfterHold } from '../../src/engine/hold/rise.ts';
import { marchFrom } from '../../src/engine/rig/march.ts';
import { prepareRig } from '../../src/engine/rig/prepare.ts';
import type { RigPart } from '../../src/engine/rig/rig.ts';
import { effectiveSpeed } from '../../src/engine/rig/speed.ts';
import { rigCurve } from '../../src/engine/rig/sweep.ts';
import { AIR, constantPart, hose, port, prepareConstant, prepareLaminar, pumpOf, rigOf } from '../engine/rig/fakes.ts';
import { allowance, cite, numberOf, type ReferenceRow, referenceRows } from './rows.ts';

const LITRE = 1e-3;

function barePumpTime(row: ReferenceRow): number {
  const ultimate = row.inputs.has('pult_Pa') ? numberOf(row, 'pult_Pa') : 0;
  const leak = row.inputs.has('Q_PaLs') ? numberOf(row, 'Q_PaLs') * LITRE : 0;
  const curve = rigCurve(prepareRig(rigOf(pumpOf(numberOf(row, 'S_Ls') * LITRE, ultimate)), AIR));
  const load = { leak, outgassing: 0, exponent: 0 };
  return pullDownTime(curve, numberOf(row, 'V_L') * LITRE, numberOf(row, 'p0_Pa'), numberOf(row, 'p_Pa'), load);
}

/** Effective speed of a pump through one constant conductance, both in the row's unit. */
function throughLine(speed: number, conductance: number): number {
  const rig = prepareRig(rigOf(pumpOf(speed), [constantPart('line', conductance)]), AIR, prepareConstant);
  return effectiveSpeed(rigCurve(rig), 100);
}

/** Conductance of parts of constant conductance, from the march behind a pump. */
function conductanceOf(parts: readonly RigPart[]): number {
  const point = marchFrom(prepareRig(rigOf(pumpOf(1), parts), AIR, prepareConstant), 1);
  return point.throughput / (point.system - point.pumpInlet);
}

/** An endless pump, so that only the narrows counts. */
const ENDLESS = pumpOf(1e4);

function laminarTime(row: ReferenceRow): number {
  // the row's own arithmetic has the viscosity of the LC rows beside it
  const gas = { ...AIR, viscosity: 18.2e-6 };
  const rig = rigOf(ENDLESS, [hose(numberOf(row, 'D_m'), numberOf(row, 'L_m'))]);
  const curve = rigCurve(prepareRig(rig, gas, prepareLaminar));
  return pullDownTime(curve, numberOf(row, 'V_L') * LITRE, numberOf(row, 'p0_Pa'), numberOf(row, 'p_Pa'));
}

function holeTime(row: ReferenceRow): number {
  const hole = port(numberOf(row, 'd_m'), {
    passage: { kind: 'opening', bore: numberOf(row, 'd_m'), dischargeCoefficient: numberOf(row, 'Cd') },
  });
  const curve = rigCurve(prepareRig(rigOf(ENDLESS, [hole]), AIR));
  return pullDownTime(curve, numberOf(row, 'V_L') * LITRE, numberOf(row, 'p0_Pa'), numberOf(row, 'p_Pa'));
}

/** What the engine gives for a row, in the row's unit. */
const CHECKS: Readonly<Record<string, (row: ReferenceRow) => number>> = {
  'PD-01': () => {
    const demand = { volume: 1000, start: 1e5, target: 2e4, time: 600 };
    return pumpNeeded(prepareRig(rigOf(pumpOf(1)), AIR), demand) * 60;
  },
  'PD-02': () => {
    const curve = rigCurve(prepareRig(rigOf(pumpOf(60 / 3600)), AIR));
    return pullDownTime(curve, 2, 1e5, 1) / 60;
  },
  'RI-01': (row) => {
    const load = { leak: numberOf(row, 'Q_PaLs') * LITRE, outgassing: 0, exponent: 0, water: 0 };
    const around = { ambient: 293.15, ambientPressure: 101325 };
    return pressureAfterHold(numberOf(row, 'V_L') * LITRE, numberOf(row, 't_s'), 0, { ...load, ...around });
  },
  'PT-01': barePumpTime,
  'PT-02': barePumpTime,
  'PT-03': barePumpTime,
  'PT-04': barePumpTime,
  'PT-05': barePumpTime,
  'PT-06': barePumpTime,
  'PT-07': barePumpTime,
  'PT-08': barePumpTime,
  'SE-01': () => throughLine(50, 30),
  'SE-03': () => throughLine(500, 100),
  'SE-05': () => throughLine(0.029722, 0.017123),
  'SE-07': () => conductanceOf([constantPart('a', 100), constantPart('b', 100), constantPart('c', 50)]),
  'SE-08': () => conductanceOf([constantPart('a', 3, { branch: 'x' }), constantPart('b', 5, { branch: 'x' })]),
  'LT-01': laminarTime,
  'LT-02': laminarTime,
  'OT-01': holeTime,
  'OT-02': holeTime,
};

const BOILING = 'water that boils off: run in tests/engine/dry';
const RECOVERY = 'vapour left by a recovery: run in tests/engine/transfer';
const NO_NUMBER = 'a definition without a number';
const TUBE = 'a conductance of a tube alone: the tube tests hold it to the handbook at both ends';
const CONTINUUM = 'the continuum term alone, which a tube of every regime does not give by itself';

const LEFT_OUT: Readonly<Record<string, string>> = {
  'DF-01': NO_NUMBER,
  'DF-02': NO_NUMBER,
  'SE-02': TUBE,
  'SE-04': TUBE,
  'SE-06': TUBE,
  'LC-01': CONTINUUM,
  'LC-02': CONTINUUM,
  'LC-03': CONTINUUM,
  'LC-04': CONTINUUM,
  'LC-05': CONTINUUM,
  'WB-01': BOILING,
  'WB-02': BOILING,
  'WB-03': BOILING,
  'WB-04': BOILING,
  'WB-05': BOILING,
  'RV-01': RECOVERY,
  'RV-02': RECOVERY,
  'RV-03': RECOVERY,
};

describe('pump-down reference rows', () => {
  const rows = referenceRows('pumpdown');

  it('every row is either checked or left out for a stated reason', () => {
    const handled = [...Object.keys(CHECKS), ...Object.keys(LEFT_OUT)].sort();
    expect(handled).toEqual(rows.map((row) => row.id).sort());
  });

  for (const row of rows) {
    const check = CHECKS[row.id];
    if (check === undefined) continue;
    it(`${row.id}: ${row.cells.quantity}`, () => {
      const expected = Number(row.value);
      expect(Math.abs(check(row) - expected), `${cite(row)}; ours ${check(row)}, row ${expected}`).toBeLessThanOrEqual(
        allowance(row, expected),
      );
    });
  }

  it('a steady load acts as an ultimate pressure Q/S behind a pump of constant speed', () => {
    const curve = rigCurve(prepareRig(rigOf(pumpOf(1e-3)), AIR));
    expect(lowestPressure(curve, { leak: 1e-3, outgassing: 0, exponent: 0 })).toBeCloseTo(1, 6);
  });
});
