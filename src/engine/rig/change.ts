import type { PreparedRig } from './prepare.ts';
import type { Pump, Rig, RigPart } from './rig.ts';

/** Single changes of a rig. SI. */

/** The same pump turned up: speed, and a speed table with it, scaled; the ultimate pressure stays. */
export function pumpOfSpeed(pump: Pump, speed: number): Pump {
  const { speedTable } = pump;
  if (speedTable === undefined) return { ...pump, speed };
  const factor = speed / pump.speed;
  return { ...pump, speed, speedTable: speedTable.map(([pressure, at]) => [pressure, at * factor] as const) };
}

export function withPumpSpeed(rig: Rig, speed: number): Rig {
  return { ...rig, pump: pumpOfSpeed(rig.pump, speed) };
}

/** A prepared rig behind another pump speed: the parts' tables are kept. */
export function preparedWithPumpSpeed(rig: PreparedRig, speed: number): PreparedRig {
  const turned = withPumpSpeed(rig.rig, speed);
  return { ...rig, rig: turned, pump: turned.pump };
}

export function withoutPart(rig: Rig, index: number): Rig {
  return { ...rig, parts: rig.parts.filter((_, i) => i !== index) };
}

function withPart(rig: Rig, index: number, change: (part: RigPart) => RigPart): Rig {
  return { ...rig, parts: rig.parts.map((part, i) => (i === index ? change(part) : part)) };
}

/** The bore of a part (m), or undefined for one that is given by a flow coefficient. */
export function boreOf(part: RigPart): number | undefined {
  const { passage } = part;
  return passage.kind === 'tube' || passage.kind === 'opening' ? passage.bore : undefined;
}

/** The rig with another bore (m) in one part; parts without a bore are left as they are. */
export function withBore(rig: Rig, index: number, bore: number): Rig {
  return withPart(rig, index, (part) => {
    const { passage } = part;
    return passage.kind === 'tube' || passage.kind === 'opening' ? { ...part, passage: { ...passage, bore } } : part;
  });
}

export function withLength(rig: Rig, index: number, length: number): Rig {
  return withPart(rig, index, (part) =>
    part.passage.kind === 'tube' ? { ...part, passage: { ...part.passage, length } } : part,
  );
}

/** One change of one thing. */
export type Swap =
  | { readonly kind: 'remove'; readonly part: RigPart; readonly rig: Rig }
  | { readonly kind: 'bore'; readonly part: RigPart; readonly size: string; readonly bore: number; readonly rig: Rig }
  | { readonly kind: 'length'; readonly part: RigPart; readonly length: number; readonly rig: Rig }
  | { readonly kind: 'pump'; readonly speed: number; readonly rig: Rig };

/**
 * Usual hose sizes and their bores, m. Source: common practice, no source (1/4 in hose 3/16 in, 3/8 in hose 5/16 in,
 * 1/2 in and 3/4 in hoses by their size).
 */
export const HOSE_BORES: readonly { readonly size: string; readonly bore: number }[] = [
  { size: '1/4 in', bore: 4.762e-3 },
  { size: '3/8 in', bore: 7.938e-3 },
  { size: '1/2 in', bore: 12.7e-3 },
  { size: '3/4 in', bore: 19.05e-3 },
];
/** A hose counts as one of the usual sizes up to this factor over its bore: 3/8 in hoses run to 9.5 mm. */
const SIZE_SLACK = 1.25;

function nextHose(bore: number): { size: string; bore: number } | undefined {
  return HOSE_BORES.find((hose) => hose.bore > bore * SIZE_SLACK);
}

/** Every single change that a crew can make: take a core out, next hose size, half a hose's length, twice the pump. */
export function singleSwaps(rig: Rig): Swap[] {
  const swaps: Swap[] = [];
  rig.parts.forEach((part, index) => {
    const { passage } = part;
    if (part.kind === 'core') swaps.push({ kind: 'remove', part, rig: withoutPart(rig, index) });
    if ((part.kind !== 'hose' && part.kind !== 'tube') || passage.kind !== 'tube') return;
    const next = nextHose(passage.bore);
    if (next !== undefined) swaps.push({ kind: 'bore', part, ...next, rig: withBore(rig, index, next.bore) });
    const length = passage.length / 2;
    swaps.push({ kind: 'length', part, length, rig: withLength(rig, index, length) });
  });
  const speed = 2 * rig.pump.speed;
  swaps.push({ kind: 'pump', speed, rig: withPumpSpeed(rig, speed) });
  return swaps;
}
