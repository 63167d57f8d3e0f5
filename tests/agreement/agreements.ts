import { runPlan } from '../../src/engine/breaks/plan.ts';
import { dryOut } from '../../src/engine/dry/dry-out.ts';
import type { Crew, Job } from '../../src/engine/estimate/crew.ts';
import { finishBounds } from '../../src/engine/estimate/crew-bounds.ts';
import { planCrews } from '../../src/engine/estimate/crew-plan.ts';
import { pullDownTime } from '../../src/engine/evacuate/pulldown.ts';
import { prepareTube } from '../../src/engine/flow/tube.ts';
import { gasState } from '../../src/engine/gas/gas.ts';
import { readHold } from '../../src/engine/hold/read.ts';
import { prepareRig } from '../../src/engine/rig/prepare.ts';
import { throughputAt } from '../../src/engine/rig/speed.ts';
import { rigCurve } from '../../src/engine/rig/sweep.ts';
import { bruteForcePlan } from '../engine/breaks/brute-force.ts';
import { atTemperature, planCases, WET as WET_PLAN } from '../engine/breaks/cases.ts';
import { gearFor } from '../engine/breaks/gear.ts';
import { bruteForce } from '../engine/dry/brute-force.ts';
import { surfaceAt, WET, wetCases, ZERO } from '../engine/dry/cases.ts';
import { soonestOfAll } from '../engine/estimate/every-plan.ts';
import { type BruteTube, bruteUpstream } from '../engine/flow/brute-force.ts';
import { normal, seeded } from '../engine/hold/logs.ts';
import { farEnd, timeTo } from '../engine/network/series.ts';
import { pumpOf, rigOf } from '../engine/rig/fakes.ts';
import { type Comparison, recordsOf } from '../references/account.ts';
import { charging, recovery } from '../references/transfers.ts';
import { levelling, searched, straight } from './hold.ts';
import { type BruteRig, bruteMinutes, bruteThroughput } from './rig.ts';

/** A calculation of ours beside a second one by another method, over its cases. */
export interface Agreement {
  readonly what: string;
  readonly method: string;
  /** what the two have in common */
  readonly shares: string;
  /** the most by which they may differ, as a part */
  readonly held: number;
  /** by how much each case differs, as a part of the second value */
  readonly misses: () => readonly number[];
}

const off = (ours: number, theirs: number): number => Math.abs(ours / theirs - 1);

const AIR = gasState('air', 293.15);
const GAS = { viscosity: AIR.viscosity, rt: AIR.specificGasConstant * AIR.temperature };
const tube = (bore: number, length: number, loss = 1.5, roughness = 0): BruteTube => ({
  bore,
  length,
  loss,
  roughness,
});

const TUBES = [
  tube(0.00476, 1.5),
  tube(0.0095, 1.5),
  tube(0.02, 5, 3, 5e-5),
  tube(0.002, 0.004),
  tube(0.003, 0.0003),
  tube(0.004, 0.1, 0),
];

/** In the pressure in front of the tube. */
function tubeMisses(): number[] {
  return TUBES.flatMap((one) => {
    const ready = prepareTube({ kind: 'tube', ...one }, AIR);
    return [1e-4, 1e-2, 1, 10, 66, 500, 5e3, 1e5, 1e6].flatMap((p) =>
      [0, 0.3, 0.9].map((ratio) => off(p, bruteUpstream(one, GAS, ready.throughput(p, ratio * p), ratio * p))),
    );
  });
}

const RIGS: readonly BruteRig[] = [
  { speed: 2.36e-3, ultimate: 2.7, tubes: [tube(4.8e-3, 1.5), tube(1.6e-3, 6e-3)] },
  { speed: 4.7e-3, ultimate: 2, tubes: [tube(9.5e-3, 1.5), tube(4.7e-3, 0.02)] },
  { speed: 1e-3, ultimate: 0, tubes: [tube(6.4e-3, 3, 2, 1.5e-6)] },
];

function curveOf({ speed, ultimate, tubes }: BruteRig) {
  const parts = tubes.map((one) => ({
    name: 'part',
    kind: 'hose' as const,
    count: 1,
    passage: { kind: 'tube' as const, ...one },
  }));
  return rigCurve(prepareRig(rigOf(pumpOf(speed, ultimate), parts), AIR));
}

function rigMisses(): number[] {
  return RIGS.flatMap((rig) => {
    const curve = curveOf(rig);
    return [5, 20, 66.66, 500, 4000, 3e4, 1e5].map((p) => off(throughputAt(curve, p), bruteThroughput(rig, GAS, p)));
  });
}

function pullDownMisses(): number[] {
  return RIGS.map((rig) =>
    off(pullDownTime(curveOf(rig), 0.02, 101_325, 66.66), bruteMinutes(rig, GAS, 0.02, 101_325, 66.66)),
  );
}

/** Times until dry, and until dry and at the target. */
function dryMisses(): number[] {
  return wetCases.flatMap(([, rig, celsius, change]) => {
    const T = celsius + ZERO;
    const system = { ...WET, ...change };
    const ours = dryOut(surfaceAt(rig, celsius), system);
    const theirs = bruteForce(rig, gasState('air', T), gasState('water vapour', T), system);
    return [off(ours.dry, theirs.dry), off(ours.dry + ours.toTarget, theirs.dry + theirs.toTarget)];
  });
}

/** Seconds of each pull, break and wait. */
function breakMisses(): number[] {
  return planCases.flatMap(([, rig, celsius, change, steps]) => {
    const T = celsius + ZERO;
    const system = { ...WET_PLAN, ...change };
    const plan = steps.map((step) => atTemperature(step, T));
    const ours = runPlan(gearFor(rig, celsius), system, plan).events;
    const theirs = bruteForcePlan(rig, gasState('air', T), gasState('water vapour', T), system, plan);
    return theirs.map(({ seconds }, i) => off(ours[i]?.seconds ?? Number.NaN, seconds));
  });
}

/** Readings with noise of 0.1 Pa, the same at every pressure, so that least squares as they are is the right measure. */
function logOf(law: (time: number) => number, seed: number): { time: number; pressure: number }[] {
  const deviate = normal(seeded(seed));
  return Array.from({ length: 40 }, (_, i) => ({ time: 60 * i, pressure: law(60 * i) + 0.1 * deviate() }));
}

/** Rise of leaks; level and time constant of moisture. */
function holdMisses(): number[] {
  const settings = { volume: 0.02, saturation: 2339.32, resolution: 0.02 };
  const leaks = [0.02, 0.05, 0.2].map((rise, i) => {
    const log = logOf((t) => 40 + rise * t, 10 + i);
    const [, theirs = Number.NaN] = searched(straight, log, [0, 0], [200, 1]);
    return off(readHold(log, settings).rise, theirs);
  });
  const wet = [300, 500, 900].flatMap((tau, i) => {
    const log = logOf((t) => 600 - 550 * Math.exp(-t / tau), 20 + i);
    const [, level = Number.NaN, constant = Number.NaN] = searched(levelling, log, [0, 100, 50], [200, 2000, 5000]);
    const ours = readHold(log, settings);
    return [off(ours.level ?? Number.NaN, level), off(ours.constant ?? Number.NaN, constant)];
  });
  return [...leaks, ...wet];
}

const CREW: Crew = {
  name: 'one',
  technicians: 1,
  rigs: 2,
  start: 480,
  dayStart: 480,
  dayEnd: 960,
  overnight: true,
};

function jobsOf(seed: number): Job[] {
  const random = seeded(seed);
  const tens = (most: number): number => 10 * (1 + Math.floor(random() * most));
  return Array.from(
    { length: 2 + Math.floor(random() * 3) },
    (_, i): Job => ({
      kind: i,
      area: '',
      steps: [
        { kind: 'attended', minutes: tens(10) },
        { kind: 'waiting', minutes: tens(60), checkInterval: 0, checkMinutes: 0 },
        { kind: 'attended', minutes: tens(10) },
      ],
    }),
  );
}

const SEEDS = Array.from({ length: 40 }, (_, i) => i + 1);

/** How much later than the soonest of all plans, from the start of work. */
function planMisses(): number[] {
  return SEEDS.map((seed) => {
    const jobs = jobsOf(seed);
    const { finish } = planCrews(jobs, { crews: [CREW], travel: 0 }).schedule;
    return off(finish - CREW.start, soonestOfAll(jobs, CREW) - CREW.start);
  });
}

/** The first minute by which the attended work can be done, counted minute by minute; the last step is a pack-up in one piece. */
function boundMisses(): number[] {
  return SEEDS.map((seed) => {
    const jobs = jobsOf(seed);
    let left = 0;
    for (const { steps } of jobs) for (const { kind, minutes } of steps) if (kind === 'attended') left += minutes;
    let minute = 480;
    for (; left > 0; minute++) if (minute % 1440 >= 480 && minute % 1440 < 960) left--;
    const last = Math.min(...jobs.map(({ steps }) => steps.at(-1)?.minutes ?? 0));
    while ((minute % 1440) - 480 < last) minute++;
    const { attendedWork } = finishBounds(jobs, { crews: [CREW], travel: 0 });
    return off(Math.ceil(attendedWork - 1e-3), minute);
  });
}

function minutesOf(comparisons: readonly Comparison[]): number[] {
  return comparisons
    .filter(({ what }) => what === 'minutes')
    .map(({ ours, theirs }) => off(Number(ours), Number(theirs)));
}

export const agreements: readonly Agreement[] = [
  {
    what: 'Tube flow: pressure in front of a tube, molecular to choked',
    method: 'small steps of the local equation, formulas as printed',
    shares: 'nothing',
    held: 1e-4,
    misses: tubeMisses,
  },
  {
    what: 'Rig march: throughput of a rig at a system pressure',
    method: 'tubes by small steps, the pump inlet by halving',
    shares: 'nothing',
    held: 1e-3,
    misses: rigMisses,
  },
  {
    what: 'Pump-down: time from the atmosphere to 500 micron',
    method: "the same rigs, Simpson's rule over ln p",
    shares: 'nothing',
    held: 2e-3,
    misses: pullDownMisses,
  },
  {
    what: 'Dry-out: times until dry and until at the target',
    method: 'small explicit steps of one enthalpy, other formulas for water',
    shares: 'the flow through a single part',
    held: 0.01,
    misses: dryMisses,
  },
  {
    what: 'Nitrogen breaks: seconds of each pull, break and wait',
    method: 'small explicit steps of gases, vapour and pool',
    shares: 'the flow through a single part',
    held: 0.01,
    misses: breakMisses,
  },
  {
    what: 'Line diffusion: time at the closed end of a held pipe',
    method: 'the Fourier series of Carslaw and Jaeger, section 3.3',
    shares: 'nothing',
    held: 1e-3,
    misses: () => [0.9, 0.5, 0.1, 0.01].map((part) => off(farEnd(part), timeTo(part))),
  },
  {
    what: 'Hold fit: rise of a leak, level and time constant of moisture',
    method: 'search over the numbers of each law, least squares',
    shares: 'nothing',
    held: 0.01,
    misses: holdMisses,
  },
  {
    what: 'Schedule: finish of two to four units against the soonest of all plans',
    method: 'every sequence of attended steps, each as early as it can be',
    shares: 'nothing',
    held: 0.1,
    misses: planMisses,
  },
  {
    what: 'Schedule bound: first moment by which the attended work can be done',
    method: 'counting minute by minute',
    shares: 'nothing',
    held: 1e-9,
    misses: boundMisses,
  },
  {
    what: 'Recovery: minutes to the level',
    method: 'tools/refrigerants/recovery_cases.py: small steps with the equations of state themselves',
    shares: 'nothing; another language',
    held: 0.02,
    misses: () => recordsOf(recovery).flatMap(({ comparisons }) => minutesOf(comparisons)),
  },
  {
    what: 'Charging: minutes until the mass is in',
    method: 'tools/refrigerants/charging_cases.py: small steps with the equations of state themselves',
    shares: 'nothing; another language',
    held: 0.02,
    misses: () => recordsOf(charging).flatMap(({ comparisons }) => minutesOf(comparisons)),
  },
];

export interface Measured extends Agreement {
  readonly cases: number;
  readonly largest: number;
}

/** Each worked out now. */
export function measured(): Measured[] {
  return agreements.map((one) => {
    const misses = one.misses();
    return { ...one, cases: misses.length, largest: Math.max(...misses) };
  });
}
