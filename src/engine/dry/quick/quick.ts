import { GAUSS_3 } from '../../../numerics/quadrature.ts';
import type { GasLoad } from '../../evacuate/load.ts';
import { TRIPLE_TEMPERATURE, VAPOUR_GAS_CONSTANT } from '../../gas/water.ts';
import type { PoolState } from '../pool.ts';
import type { RigSurface } from '../rig-surface.ts';
import { type FlowPatches, flowPatches, type Throughput, throughputOn } from './flow-patches.ts';
import { type AtPump, marchStage, type Scales, type Track } from './march.ts';
import type { Course, State } from './rates.ts';
import { ICE_CELLS, LIQUID_CELLS, type WaterAt, waterOn } from './water-cells.ts';
import { atPumpOf } from './wet-inlet.ts';

/** What the quick way starts from. SI. */
export interface QuickStart {
  readonly volume: number;
  readonly water: number;
  readonly heat: number;
  readonly metal: number;
  readonly load: GasLoad;
  readonly state: PoolState;
  readonly gas: number;
  readonly vapour: number;
  readonly target: number;
  /** lowest pressure that the rig reaches under the load */
  readonly lowest: number;
}

export interface QuickResult {
  readonly dry: number;
  readonly toTarget: number;
  readonly pressureWhenDry: number;
  readonly coldest: number;
  readonly froze: boolean;
  readonly vapourAtPump: number;
  /** steps tried on the way */
  readonly tries: number;
}

/** A system at the moment when it is dry. */
interface Dried {
  readonly state: Readonly<State>;
  readonly vapour: number;
  readonly froze: boolean;
  readonly track: Readonly<Track>;
}

/** What is shared by all units on one surface. */
interface Shared {
  readonly patches: FlowPatches;
  readonly atPump: AtPump;
  /** by what the way until dry depends on, which the target is not part of: another target takes the last pull alone */
  readonly dried: Map<string, Dried>;
}
/** Systems that are kept for one surface; then it begins anew. */
const MOST_DRIED = 1024;
const kept = new WeakMap<RigSurface, Shared>();

function sharedOf(surface: RigSurface): Shared {
  const known = kept.get(surface);
  if (known !== undefined) return known;
  const shared = { patches: flowPatches(surface), atPump: atPumpOf(surface), dried: new Map() };
  kept.set(surface, shared);
  return shared;
}

const n = Number.NaN;
const flow: Throughput = { value: n, byPressure: n, byFraction: n };
const water: WaterAt = { pressure: n, slope: n, bend: n, heat: n, heatSlope: n, latent: n, latentSlope: n };

/** Width of a panel of ln(p - pu) in the integral of the last pull. */
const PANEL = 0.5;
const { nodes: NODES, weights: WEIGHTS } = GAUSS_3;

/** A pool changes its state a few times at most. */
const MOST_STAGES = 12;

/**
 * A dry-out by the quick way: the equations of `stages.ts` on the same surface, marched by steps that leave the times less than
 * 1e-3 and the lowest temperature less than 0.05 K from those of fine steps. Undefined where the march does not come to an end,
 * which is for the general way to judge.
 */
export function quickDryOut(surface: RigSurface, start: QuickStart): QuickResult | undefined {
  const { volume, heat, metal, load, target, lowest } = start;
  const { patches, atPump, dried } = sharedOf(surface);
  const ambient = surface.temperature;
  const perThroughput = 1 / (VAPOUR_GAS_CONSTANT * ambient);
  const perPascal = volume * perThroughput;
  const course: Course = { patches, ambient, volume, heat, metal, load, perPascal, perThroughput };
  const scales: Scales = { water: start.water, target, lowest };
  const { leak, outgassing, exponent } = load;
  const key = [volume, start.water, heat, metal, leak, outgassing, exponent, start.gas, start.vapour].join();
  let end = dried.get(key);
  if (end === undefined) {
    end = untilDry(course, start, scales, atPump);
    if (end === undefined) return undefined;
    if (dried.size >= MOST_DRIED) dried.clear();
    dried.set(key, end);
  }
  const { vapour, froze } = end;
  const state = { ...end.state };
  const track = { ...end.track };
  const dry = state.time;
  const pressure = Math.exp(state.x0) + vapour;
  const toTarget = pressure <= target ? 0 : lastPull(course, state, vapour, scales, track, atPump);
  if (!(toTarget >= 0)) return undefined;
  return {
    dry,
    toTarget,
    pressureWhenDry: pressure,
    coldest: track.coldest,
    froze,
    vapourAtPump: track.wettest,
    tries: track.tries,
  };
}

/** The march from the start to where the last of the water is vapour. */
function untilDry(course: Course, start: QuickStart, scales: Scales, atPump: AtPump): Dried | undefined {
  const { patches, ambient } = course;
  const state: State = { time: 0, x0: Math.log(start.gas), x1: ambient, x2: start.water };
  const begin = start.gas + start.vapour;
  throughputOn(patches, begin, start.vapour / begin, false, flow);
  const track: Track = { coldest: ambient, wettest: atPump(flow.value, start.vapour / begin), tries: 0 };
  let stage: PoolState = start.state;
  let froze = stage === 'ice';
  for (let i = 0; i < MOST_STAGES; i++) {
    const ending = marchStage(course, stage, state, scales, track, atPump);
    if (ending === 'none') return undefined;
    if (stage === 'freezing') {
      // without liquid only ice is left, without ice only liquid
      stage = ending === 0 ? 'ice' : 'liquid';
      state.x1 = TRIPLE_TEMPERATURE;
    } else if (ending === 0) return { state, vapour: vapourOver(stage, state.x1), froze, track };
    else {
      froze = true;
      state.x1 = stage === 'ice' ? state.x2 : 0;
      stage = 'freezing';
      track.coldest = Math.min(track.coldest, TRIPLE_TEMPERATURE);
    }
  }
  return undefined;
}

function vapourOver(stage: 'liquid' | 'ice', temperature: number): number {
  waterOn(stage === 'liquid' ? LIQUID_CELLS : ICE_CELLS, temperature, water);
  return water.pressure;
}

/** Seconds from dry to the target. Without a load the composition stays and it is V Int dp/Q; else it is marched. */
function lastPull(course: Course, state: State, vapour: number, scales: Scales, track: Track, atPump: AtPump): number {
  const { load, patches, volume } = course;
  const gas = Math.exp(state.x0);
  const pressure = gas + vapour;
  if (load.leak === 0 && load.outgassing === 0) {
    const fraction = vapour / pressure;
    const from = Math.log(scales.target - patches.ultimate);
    const to = Math.log(pressure - patches.ultimate);
    const panels = Math.max(1, Math.ceil((to - from) / PANEL));
    const half = (to - from) / (2 * panels);
    let sum = 0;
    for (let i = 0; i < panels; i++)
      for (let k = 0; k < NODES.length; k++) {
        const excess = Math.exp(from + half * (2 * i + 1 + (NODES[k] ?? 0)));
        throughputOn(patches, patches.ultimate + excess, fraction, false, flow);
        sum += ((WEIGHTS[k] ?? 0) * excess) / flow.value;
      }
    return volume * half * sum;
  }
  const start = state.time;
  state.x1 = Math.log(vapour);
  state.x2 = 0;
  const ending = marchStage(course, 'dry', state, scales, track, atPump);
  return ending === 0 ? state.time - start : Number.NaN;
}
