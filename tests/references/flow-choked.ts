import { churchill } from '../../src/engine/flow/friction.ts';
import { chokedExit } from '../../src/engine/flow/inertia.ts';
import { chokedConstant, criticalRatio, subsonicConstant } from '../../src/engine/flow/nozzle.ts';
import { prepareTube } from '../../src/engine/flow/tube.ts';
import type { GasState } from '../../src/engine/gas/state.ts';
import {
  bisect,
  colebrook,
  fannoLength,
  fannoMach,
  fannoPressure,
  fannoTemperature,
  isothermalFlux,
  massFlowConstant,
  prandtl,
} from '../engine/flow/compressible.ts';
import { perfectGas } from '../engine/flow/gases.ts';
import { account, type Comparison, closeTo, near, within } from './account.ts';
import { numberOf, type ReferenceRow } from './rows.ts';

export const R = 8.314462618;
export const MU = 1.82e-5;
const n = numberOf;

/** Churchill's formula is said to be within about 3 % of Colebrook's; worst of the rows at Re 4000. */
const CHURCHILL = 0.035;

function friction(row: ReferenceRow, formula: (reynolds: number, e: number) => number): Comparison[] {
  return [
    near(row, formula(n(row, 'Re'), n(row, 'eD')), Number(row.value), 0, 'the formula itself'),
    within(churchill(n(row, 'Re'), n(row, 'eD')), Number(row.value), CHURCHILL, 'the friction factor of the engine'),
  ];
}

/** Wall roughness that gives the row's fixed f at that flow, so that the engine can be held against it. */
function roughnessFor(f: number, reynolds: number, bore: number): number {
  return bore * bisect((e) => churchill(reynolds, e) - f, 0, 0.2);
}

interface Duct {
  readonly bore: number;
  readonly length: number;
  readonly loss: number;
  readonly friction: number;
}

/** Mass flow of the engine through a duct of fixed friction factor, kg/s. */
export function engineFlow(duct: Duct, gas: GasState, p1: number, p2: number, guess: number): number {
  const area = (Math.PI / 4) * duct.bore ** 2;
  const reynolds = (guess / area) * (duct.bore / gas.viscosity);
  const roughness = roughnessFor(duct.friction, reynolds, duct.bore);
  const q = prepareTube({ kind: 'tube', ...duct, roughness }, gas).throughput(p1, p2);
  return q / (gas.specificGasConstant * gas.temperature);
}

/** The worked isothermal duct: the engine, which knows no fixed f, is given the roughness that makes it. */
function isothermalDuct(row: ReferenceRow): Comparison[] {
  const gas = perfectGas(R / n(row, 'R'), n(row, 'T1_K'), MU);
  const [bore, length, f] = [n(row, 'D_m'), n(row, 'L_m'), n(row, 'f_Darcy')];
  const duct = { bore, length, loss: 0, friction: f };
  const engine = engineFlow(duct, gas, n(row, 'p1_Pa'), n(row, 'p2_Pa'), Number(row.value));
  const rt = gas.specificGasConstant * gas.temperature;
  const flux = isothermalFlux(n(row, 'p1_Pa'), n(row, 'p2_Pa'), rt, (f * length) / bore);
  return [
    near(row, engine, Number(row.value), 0, 'the engine'),
    near(row, (flux * Math.PI * bore ** 2) / 4, Number(row.value), 0, 'the formula'),
  ];
}

/** Adiabatic choked hose from a vessel: isentropic inlet, then Fanno to Mach 1. */
function adiabaticHose(row: ReferenceRow): number {
  const gamma = n(row, 'gamma');
  const m1 = fannoMach(gamma, (n(row, 'f_Darcy') * n(row, 'L_m')) / n(row, 'D_m'));
  const area = (Math.PI / 4) * n(row, 'D_m') ** 2;
  return (massFlowConstant(gamma, m1) * area * n(row, 'p0_Pa')) / Math.sqrt(n(row, 'R') * n(row, 'T0_K'));
}

const PSI = 6894.757293168;
const ATMOSPHERE = 101325;
const RANKINE = 5 / 9;
const FOOT = 0.3048;
export const AIR_MASS = 0.0289655;

/** CX-01 and CX-02: 100 scfm through 75 ft of 1 in pipe at 65 psig, commercial steel (0.0018 in, as the row's note). */
function airLine(): { drop: number; inletVelocity: number; outletVelocity: number } {
  const bore = 1.049 * 0.0254;
  const temperature = (110 + 459.67) * RANKINE;
  const gas = perfectGas(AIR_MASS, temperature, 1.91e-5);
  // standard flow at 60 F, 14.7 psi, carried to the gas temperature
  const q = (100 * FOOT ** 3 * 14.7 * PSI * temperature) / (60 * (60 + 459.67) * RANKINE);
  const tube = prepareTube({ kind: 'tube', bore, length: 75 * FOOT, loss: 0, roughness: 0.0018 * 0.0254 }, gas);
  const p1 = 65 * PSI + ATMOSPHERE;
  const p2 = bisect((p) => tube.upstreamPressure(q, p) - p1, 0.5 * p1, p1);
  const velocity = (p: number): number => q / p / ((Math.PI / 4) * bore ** 2) / FOOT / (1 / 60);
  return { drop: (p1 - p2) / PSI, inletVelocity: velocity(p1), outletVelocity: velocity(p2) };
}

/** Standard cubic feet an hour (60 F, 14.7 psi) of a throughput. */
function standardFlow(q: number, temperature: number): number {
  return ((q / (14.7 * PSI)) * ((60 + 459.67) * RANKINE) * 3600) / temperature / FOOT ** 3;
}

export const choked = account(
  'fanno_choked',
  [
    [
      /^F[AG]-/,
      (row) => {
        const [gamma, m] = [n(row, 'gamma'), n(row, 'M')];
        const length = near(row, fannoLength(gamma, m));
        const note = /p\/p\*=([\d.]+) T\/T\*=([\d.]+)/.exec(row.cells.note ?? '');
        if (note === null) return length;
        return [
          length,
          closeTo(fannoPressure(gamma, m), Number(note[1]), 5e-4, 'p/p* of the note'),
          closeTo(fannoTemperature(gamma, m), Number(note[2]), 5e-4, 'T/T* of the note'),
        ];
      },
    ],
    [/^CH-/, (row) => near(row, chokedConstant(n(row, 'gamma')))],
    [/^CR-/, (row) => near(row, criticalRatio(n(row, 'gamma')))],
    [/^IS-/, (row) => near(row, subsonicConstant(n(row, 'gamma'), n(row, 'p/p0')))],
    [
      /^IT-/,
      (row) => {
        // exit Mach number of the engine's choked tube: G R T/p_e over sqrt(gamma R T), continuum
        const beta = 1e12;
        return near(row, Math.sqrt(beta) / chokedExit(beta) / Math.sqrt(n(row, 'gamma')));
      },
    ],
    [/^EX-01$/, isothermalDuct],
    [
      /^EX-02$/,
      (row) => {
        const gamma = n(row, 'gamma');
        const resistance = (n(row, 'f_Darcy') * n(row, 'L_m')) / n(row, 'D_m');
        // inlet state is static in this example: march the Mach number until the exit pressure fits
        const exit = (m1: number): number => fannoMach(gamma, fannoLength(gamma, m1) - resistance);
        const p2 = (m1: number): number =>
          (n(row, 'p1_Pa') * fannoPressure(gamma, exit(m1))) / fannoPressure(gamma, m1);
        const m1 = bisect((m) => p2(m) - n(row, 'p2_Pa'), 0.05, fannoMach(gamma, resistance));
        const area = (Math.PI / 4) * n(row, 'D_m') ** 2;
        const density = n(row, 'p1_Pa') / (n(row, 'R') * n(row, 'T1_K'));
        return near(row, density * m1 * Math.sqrt(gamma * n(row, 'R') * n(row, 'T1_K')) * area);
      },
    ],
    [
      /^EX-03$/,
      (row) => {
        const change = fannoLength(n(row, 'gamma'), 0.1) - fannoLength(n(row, 'gamma'), 0.5);
        return near(row, (change * n(row, 'D_m')) / n(row, 'f_Darcy'));
      },
    ],
    [/^EX-04$/, (row) => near(row, (fannoLength(n(row, 'gamma'), 0.5) * n(row, 'D_m')) / n(row, 'f_Darcy'))],
    [
      /^EX-05$/,
      (row) => near(row, (n(row, 'p1_kPa') * fannoPressure(1.4, n(row, 'M2'))) / fannoPressure(1.4, n(row, 'M1'))),
    ],
    [
      /^EX-06$/,
      (row) => {
        const m1 = n(row, 'V1_m_s') / Math.sqrt(1.4 * 287 * n(row, 'T1_K'));
        const m2 = fannoMach(1.4, fannoLength(1.4, m1) - (n(row, 'f_Darcy') * n(row, 'L_m')) / n(row, 'D_m'));
        return near(row, (n(row, 'p1_kPa') * fannoPressure(1.4, m2)) / fannoPressure(1.4, m1));
      },
    ],
    [/^HX-/, (row) => near(row, adiabaticHose(row))],
    [/^FR-/, (row) => friction(row, prandtl)],
    [/^FC-/, (row) => friction(row, colebrook)],
    [/^FU-/, (row) => near(row, churchill(n(row, 'Re'), n(row, 'eD')))],
    [/^CX-01$/, (row) => near(row, airLine().drop)],
    [
      /^CX-02$/,
      (row) => {
        return [
          near(row, airLine().inletVelocity, Number(row.value), 0, 'inlet'),
          near(row, airLine().outletVelocity, 3484, 0, 'outlet, from the note of the row'),
        ];
      },
    ],
    [
      /^CX-03$/,
      (row) => {
        const temperature = (100 + 459.67) * RANKINE;
        const gas = perfectGas(AIR_MASS, temperature, 1.9e-5);
        const tube = { bore: 0.546 * 0.0254, length: 10 * FOOT, loss: 1, roughness: 0.0018 * 0.0254 };
        const q = prepareTube({ kind: 'tube', ...tube }, gas).throughput(19.3 * PSI + ATMOSPHERE, ATMOSPHERE);
        return near(row, standardFlow(q, temperature));
      },
    ],
    [
      /^CX-04$/,
      (row) => {
        const temperature = (140 + 459.67) * RANKINE;
        const gas = perfectGas(0.42 * AIR_MASS, temperature, 1.2e-5);
        const duct = { bore: 3.068 * 0.0254, length: 20 * FOOT, loss: 1.5, friction: 0.0175 };
        const guess = (Number(row.value) / 3600) * FOOT ** 3 * ((14.7 * PSI) / (gas.specificGasConstant * 288.7));
        const mass = engineFlow(duct, gas, 125 * PSI + ATMOSPHERE, ATMOSPHERE, guess);
        // the engine is isothermal: the row's second tolerance
        const q = mass * gas.specificGasConstant * temperature;
        return near(row, standardFlow(q, temperature), Number(row.value), 1);
      },
    ],
  ],
  { 'CX-05': 'wet steam, and the losses of the elbow and the globe valve are not in the row' },
);
