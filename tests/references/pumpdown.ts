import { dryOut } from '../../src/engine/dry/dry-out.ts';
import { rigSurface } from '../../src/engine/dry/rig-surface.ts';
import { pullDownTime } from '../../src/engine/evacuate/pulldown.ts';
import { pumpNeeded } from '../../src/engine/evacuate/pump-needed.ts';
import { gasState } from '../../src/engine/gas/gas.ts';
import { latentEvaporation, saturationPressure } from '../../src/engine/gas/water.ts';
import { pressureAfterHold } from '../../src/engine/hold/rise.ts';
import { refrigerantByName } from '../../src/engine/refrigerant/by-name.ts';
import { marchFrom } from '../../src/engine/rig/march.ts';
import { prepareRig } from '../../src/engine/rig/prepare.ts';
import type { Machine, Rig, RigPart } from '../../src/engine/rig/rig.ts';
import { effectiveSpeed } from '../../src/engine/rig/speed.ts';
import { rigCurve } from '../../src/engine/rig/sweep.ts';
import { recover } from '../../src/engine/transfer/recovery.ts';
import { type RecoveryTask, recoveryGear } from '../../src/engine/transfer/recovery-gear.ts';
import {
  AIR,
  constantPart,
  core,
  hose,
  port,
  prepareConstant,
  prepareLaminar,
  pumpOf,
  rigOf,
} from '../engine/rig/fakes.ts';
import { account, near } from './account.ts';
import { numberOf, type ReferenceRow } from './rows.ts';

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

const ZERO_CELSIUS = 273.15;

/** Water behind a bare pump, with heat enough that it stays as warm as it is: minutes or seconds until dry, as the row has it. */
function boilOff(row: ReferenceRow): number {
  const kelvin = numberOf(row, 't_C') + ZERO_CELSIUS;
  const rig = rigOf(pumpOf(numberOf(row, 'S_Ls') * LITRE));
  const surface = rigSurface(rig, gasState('air', kelvin), gasState('water vapour', kelvin));
  const vapour = saturationPressure(kelvin);
  const system = { volume: 1.2e-2, water: numberOf(row, 'm_g') * 1e-3, heat: 1e6 };
  return dryOut(surface, { ...system, start: vapour * 1.0001, target: vapour / 2 }).dry;
}

const R410A = refrigerantByName('R-410A');
const MACHINE: Machine = { name: 'machine', displacement: 3 / 3600, ultimate: 2e4, efficiency: 0.8, approach: 0 };
const MACHINE_RIG: Rig = {
  name: 'rig',
  pump: { name: 'machine', speed: MACHINE.displacement, ultimate: 0 },
  machine: MACHINE,
  parts: [hose(0.0048, 1.5), core(0.0016, 0.006)],
};
const RECOVERED: Omit<RecoveryTask, 'level'> = { charge: 3, volume: 0.02, heat: 15, mode: 'vapour' };

/** Grams left in a system recovered to the pressure of the row. */
function vapourLeft(row: ReferenceRow): number {
  const gear = recoveryGear(R410A, MACHINE_RIG, 293.15);
  return 1000 * recover(gear, { ...RECOVERED, level: numberOf(row, 'p_Pa') }).left;
}

/** What the engine gives for a row, in the row's unit. */
const OURS: Readonly<Record<string, (row: ReferenceRow) => number>> = {
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
  'WB-01': boilOff,
  'WB-02': boilOff,
  'WB-03': boilOff,
  'WB-04': boilOff,
  'WB-05': () => latentEvaporation(10 + ZERO_CELSIUS) * (1e-3 / 60),
  'RV-01': (row) => 1000 / recoveryGear(R410A, MACHINE_RIG, 293.15).vapour.density(numberOf(row, 'p_Pa')),
  'RV-02': vapourLeft,
  'RV-03': vapourLeft,
};

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
};

export const pumpDown = account(
  'pumpdown',
  [[new RegExp(`^(${Object.keys(OURS).join('|')})$`, 'u'), (row) => near(row, OURS[row.id]?.(row) ?? Number.NaN)]],
  LEFT_OUT,
);
