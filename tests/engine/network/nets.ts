import { constantLaw, type LineLaw, type LinePoint, noPoint } from '../../../src/engine/network/law.ts';
import { type Line, type Network, type Port, rigPort } from '../../../src/engine/network/network.ts';
import { tubeLaw } from '../../../src/engine/network/tube-law.ts';
import type { RigCurve } from '../../../src/engine/rig/curve.ts';
import { prepareRig } from '../../../src/engine/rig/prepare.ts';
import type { RigPart } from '../../../src/engine/rig/rig.ts';
import { rigCurve } from '../../../src/engine/rig/sweep.ts';
import { AIR, pumpOf, rigOf } from '../rig/fakes.ts';

export const START = 101_325;
/** 500 micron */
export const TARGET = 66.66;

export function hose(bore: number, length: number): RigPart {
  return {
    name: 'hose',
    kind: 'hose',
    count: 1,
    passage: { kind: 'tube', bore, length, loss: 1.5, roughness: 1.5e-6 },
  };
}

/** A small pump on a wide hose. */
export const WIDE: RigCurve = rigCurve(prepareRig(rigOf(pumpOf(0.002, 2), [hose(0.0127, 1)]), AIR));
/** The same pump on a narrow hose: the rig is what holds the pull-down up. */
export const NARROW: RigCurve = rigCurve(prepareRig(rigOf(pumpOf(0.002, 2), [hose(0.0035, 1.5)]), AIR));

export function pipe(from: number, to: number, bore: number, length: number, count = 1): Line {
  return { from, to, length, count, law: tubeLaw(AIR, bore) };
}

/** A pipe from the rig at node 0 to a volume at node 1. */
export function dead(bore: number, length: number, volume = 0.002, curve: RigCurve = WIDE): Network {
  return { volumes: [0, volume], lines: [pipe(0, 1, bore, length)], ports: [rigPort(0, curve)] };
}

export function volumeOf({ volumes, lines }: Network): number {
  const inLines = lines.reduce((sum, { law, length, count }) => sum + law.area * length * count, 0);
  return volumes.reduce((sum, one) => sum + one, inLines);
}

/** A node that is all but held at a pressure. */
export function holding(node: number, pressure: number, conductance: number): Port {
  return {
    node,
    ultimate: pressure,
    throughput: (p) => conductance * (p - pressure),
    slope: () => conductance,
  };
}

/** A pipe of constant conductance per length, held at one end and closed at the other. */
export function heldPipe(conductivity: number, area: number, length: number, held: number): Network {
  return {
    volumes: [0, 0],
    lines: [{ from: 0, to: 1, length, count: 1, law: constantLaw(conductivity, area) }],
    ports: [holding(0, held, (1e6 * conductivity) / length)],
  };
}

/** What a line is at a pressure. */
export function pointOf(law: LineLaw, pressure: number): LinePoint {
  const point = noPoint();
  law.at(pressure, point);
  return point;
}

/** Flow of a piece by its potential alone, Pa m3/s. */
export function laminarFlow(law: LineLaw, upper: number, lower: number, length: number): number {
  return (pointOf(law, upper).potential - pointOf(law, lower).potential) / length;
}

/** Flow of a piece with its shares, turbulence and inertia taken off. */
export function pieceFlow(law: LineLaw, upper: number, lower: number, length: number, near = 0) {
  const out = { flow: Number.NaN, upperShare: Number.NaN, lowerShare: Number.NaN };
  law.restrain?.(laminarFlow(law, upper, lower, length), pointOf(law, upper), pointOf(law, lower), length, near, out);
  return out;
}
