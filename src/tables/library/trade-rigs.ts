import { pullDownTime } from '../../engine/evacuate/pulldown.ts';
import { gasState } from '../../engine/gas/gas.ts';
import type { RigCurve } from '../../engine/rig/curve.ts';
import { operateAt } from '../../engine/rig/operate.ts';
import { prepareRig } from '../../engine/rig/prepare.ts';
import { meterReading } from '../../engine/rig/speed.ts';
import { rigCurve } from '../../engine/rig/sweep.ts';
import { STANDARD_ATMOSPHERE } from '../../units/table.ts';
import { readParts } from '../rigs.ts';

/**
 * The set-ups that the trade speaks of, built from library parts, and what the engine makes of them: air at 20 C, a
 * standard atmosphere around.
 */
const PORT_WIDE = 'port 3/8 in flare';
const PORT_SMALL = 'port 1/4 in flare';
const SMALL_HOSE = 'hose 1/4 in x 5 ft';
const DEPRESSOR = 'depressor 1/4 in';
const CORE = 'core fitted';

/** Parts behind the pump, from the pump to the system. */
export const tradeSetUps = {
  widePort: [PORT_WIDE],
  smallPort: [PORT_SMALL],
  smallHose: [PORT_SMALL, SMALL_HOSE, DEPRESSOR],
  smallHoseOnCore: [PORT_SMALL, SMALL_HOSE, DEPRESSOR, CORE],
  wideHose: [PORT_WIDE, 'hose 1/2 in x 6 ft'],
  twoWayManifold: [PORT_SMALL, SMALL_HOSE, 'manifold two-way 1/4 in', SMALL_HOSE, DEPRESSOR],
  twoWayManifoldOnCore: [PORT_SMALL, SMALL_HOSE, 'manifold two-way 1/4 in', SMALL_HOSE, DEPRESSOR, CORE],
  fourWayManifold: [PORT_WIDE, 'hose 3/8 in x 5 ft', 'manifold four-way 3/8 in', PORT_SMALL, SMALL_HOSE, DEPRESSOR],
  fourWayManifoldOnCore: [
    PORT_WIDE,
    'hose 3/8 in x 5 ft',
    'manifold four-way 3/8 in',
    PORT_SMALL,
    SMALL_HOSE,
    DEPRESSOR,
    CORE,
  ],
  cure: [PORT_WIDE, 'hose 1/2 in x 6 ft', 'end 1/4 in on 1/2 in hose', 'core-removal valve 1/4 in', 'core removed'],
} as const satisfies Record<string, readonly string[]>;

export type TradeSetUp = keyof typeof tradeSetUps;

const AIR = gasState('air', 293.15);
const CUBIC_FOOT_A_MINUTE = 0.3048 ** 3 / 60;
/** 500 micron, Pa; 1 micron of mercury is 0.133322387415 Pa */
const TARGET = 500 * 0.133322387415;
/** 10 L, about the inside of a mid-size split system with its lines */
const VOLUME = 0.01;

/** The shared curve of a set-up behind a library pump of `cfm`. */
export function tradeCurve(setUp: TradeSetUp, cfm = 4): RigCurve {
  const rows = [['Rig', 'Part'], ...[`pump ${cfm} cfm`, ...tradeSetUps[setUp]].map((part) => [setUp, part])];
  return rigCurve(prepareRig(readParts(rows).rig(setUp), AIR));
}

/** Reading of a free-air meter on the open end, cfm. */
export function tradeReading(setUp: TradeSetUp, cfm = 4): number {
  return meterReading(tradeCurve(setUp, cfm), STANDARD_ATMOSPHERE) / CUBIC_FOOT_A_MINUTE;
}

/** Minutes from the atmosphere to 500 micron on 10 L of dry air. */
export function tradeMinutes(setUp: TradeSetUp, cfm = 4): number {
  return pullDownTime(tradeCurve(setUp, cfm), VOLUME, STANDARD_ATMOSPHERE, TARGET) / 60;
}

/** Throughput over pressure difference from the open end to the pump while the meter reads, m3/s. */
export function tradeConductance(setUp: TradeSetUp, cfm = 4): number {
  const curve = tradeCurve(setUp, cfm);
  const { pumpInlet, throughput } = operateAt(curve, STANDARD_ATMOSPHERE);
  return throughput / (STANDARD_ATMOSPHERE - pumpInlet);
}
