import { tradeConductance, tradeMinutes, tradeReading } from './trade-rigs.ts';

/**
 * What the trade says of its gear (common practice, no source) beside what the engine makes of the shipped parts. Ours is
 * computed when it is asked for; `why` says where the two part, or what makes them agree.
 */
export interface TradeFact {
  readonly id: string;
  readonly fact: string;
  readonly theirs: string;
  readonly ours: () => string;
  /** true where ours is within what is stated */
  readonly agrees: () => boolean;
  readonly why: string;
}

/** Stated readings are met within this share. */
export const READING_SLACK = 0.15;
/** Pumps of different size behind one small hose on a core: their times differ by less than this share. */
export const PUMP_SLACK = 0.03;
/** "About 90 %" as a range. */
export const CORE_LOSS = [0.8, 0.97] as const;
/** "Half a cfm at best." */
export const CORE_READING = 0.5;
/** "Next to nothing" read as less than that. */
const NEXT_TO_NOTHING = 0.5;

export const STATED = { pump: 4, widePort: 4, smallPort: 3.8, smallHose: 1.8 } as const;

const cfm = (value: number): string => `${value.toFixed(value < 1 ? 2 : 1)} cfm`;
const percent = (share: number): string => `${(100 * share).toFixed(0)} %`;
const minutes = (value: number): string => `${value.toFixed(value < 10 ? 1 : 0)} min`;
const isNear = (ours: number, theirs: number): boolean => Math.abs(ours - theirs) <= READING_SLACK * theirs;

/** Share of the conductance that a fitted core takes from one small hose while a free-air meter reads. */
export function coreLoss(): number {
  return 1 - tradeConductance('smallHoseOnCore') / tradeConductance('smallHose');
}

/** Largest over smallest pull-down time behind one small hose on a core with 4, 5 and 10 cfm, less 1. */
export function pumpSpread(): number {
  const times = [4, 5, 10].map((size) => tradeMinutes('smallHoseOnCore', size));
  return Math.max(...times) / Math.min(...times) - 1;
}

export const tradeFacts: readonly TradeFact[] = [
  {
    id: 'wide-port',
    fact: 'A 4 cfm pump through its open 3/8 in port: free-air meter reading',
    theirs: 'about 4 cfm',
    ours: () => cfm(tradeReading('widePort')),
    agrees: () => isNear(tradeReading('widePort'), STATED.widePort),
    why: 'The port is wide against the flow; a little is lost to the speed of the air.',
  },
  {
    id: 'small-port',
    fact: 'The same pump through its open 1/4 in port',
    theirs: 'about 3.8 cfm',
    ours: () => cfm(tradeReading('smallPort')),
    agrees: () => isNear(tradeReading('smallPort'), STATED.smallPort),
    why: 'A short bore of 4.8 mm hardly throttles while an atmosphere pushes.',
  },
  {
    id: 'small-hose',
    fact: 'One 1/4 in hose of 5 ft with its core depressor on the 1/4 in port',
    theirs: 'about 1.8 cfm',
    ours: () => cfm(tradeReading('smallHose')),
    agrees: () => isNear(tradeReading('smallHose'), STATED.smallHose),
    why: 'Friction in the hose and the narrow depressor. The bore of the depressor was settled by this reading, within the usual 2.5 to 3.5 mm.',
  },
  {
    id: 'wide-hose',
    fact: 'A 1/2 in hose, wide from end to end, on the 3/8 in port',
    theirs: 'close to the reading of the pump alone',
    ours: () => cfm(tradeReading('wideHose')),
    agrees: () => isNear(tradeReading('wideHose'), tradeReading('widePort')),
    why: 'The port before it is narrower than the hose.',
  },
  {
    id: 'core-reading',
    fact: 'The small hose on a fitted access-valve core',
    theirs: 'half a cfm at best',
    ours: () => cfm(tradeReading('smallHoseOnCore')),
    agrees: () => tradeReading('smallHoseOnCore') <= CORE_READING,
    why: 'The gap of the core is choked: the speed of sound is the limit, whatever stands behind it. Its effective bore was settled by this bound, within the usual open area of a depressed core.',
  },
  {
    id: 'core-loss',
    fact: 'What a core takes from the conductance of the small hose, in the range that the meter works in',
    theirs: 'about 90 %',
    ours: () => percent(coreLoss()),
    agrees: () => coreLoss() >= CORE_LOSS[0] && coreLoss() <= CORE_LOSS[1],
    why: 'Conductance is throughput over the pressure difference. The share changes with pressure: in deep vacuum the hose itself costs more and the core less.',
  },
  {
    id: 'two-way',
    fact: 'A two-way manifold between two 1/4 in hoses, no core',
    theirs: 'next to nothing',
    ours: () => cfm(tradeReading('twoWayManifold')),
    agrees: () => tradeReading('twoWayManifold') < NEXT_TO_NOTHING,
    why: 'While an atmosphere pushes, the flow falls only with the root of the length, so twice the hose and a manifold leave well over half. At 500 micron the flow is slow and the loss grows with the length itself: see the minutes two rows below. A valve not fully open, a second depressor, a worn seal or a tighter bore takes more than this.',
  },
  {
    id: 'two-way-core',
    fact: 'The same manifold and hoses on a fitted core',
    theirs: 'less still',
    ours: () => cfm(tradeReading('twoWayManifoldOnCore')),
    agrees: () => tradeReading('twoWayManifoldOnCore') < tradeReading('twoWayManifold'),
    why: 'The choked core sets the reading; hose and manifold behind it no longer show at the meter, but they do in the time.',
  },
  {
    id: 'two-way-minutes',
    fact: 'Minutes to 500 micron on 10 L of dry air through the core: one small hose against manifold and two hoses (4 cfm)',
    theirs: 'the manifold costs a lot of time',
    ours: () => `${minutes(tradeMinutes('smallHoseOnCore'))} against ${minutes(tradeMinutes('twoWayManifoldOnCore'))}`,
    agrees: () => tradeMinutes('twoWayManifoldOnCore') > tradeMinutes('smallHoseOnCore'),
    why: 'In deep vacuum each foot of small hose counts in full.',
  },
  {
    id: 'four-way',
    fact: 'A 3/8 in hose to a four-way manifold, 1/4 in hose onward, no core',
    theirs: 'no better than the one small hose',
    ours: () => cfm(tradeReading('fourWayManifold')),
    agrees: () => tradeReading('fourWayManifold') <= tradeReading('smallHose'),
    why: 'The last small hose and its depressor are the same; what is widened before them was not the narrows.',
  },
  {
    id: 'bigger-pump',
    fact: 'Minutes to 500 micron behind one small hose on a core with 4, 5 and 10 cfm: largest over smallest',
    theirs: 'a bigger pump makes no difference',
    ours: () => `${(100 * pumpSpread()).toFixed(1)} % apart`,
    agrees: () => pumpSpread() <= PUMP_SLACK,
    why: 'Hose and core are so narrow that each of the pumps sits near its ultimate pressure.',
  },
  {
    id: 'cure',
    fact: 'The cure: core removed, 1/2 in hose with a 1/4 in end',
    theirs: 'most of the pump comes back',
    ours: () =>
      `${cfm(tradeReading('cure'))}; ${minutes(tradeMinutes('cure'))} instead of ${minutes(tradeMinutes('smallHoseOnCore'))}`,
    agrees: () => tradeReading('cure') > 0.5 * STATED.pump,
    why: 'What is left are the short bores of 4.8 mm at the valve.',
  },
];

export interface TradeFactRow {
  readonly fact: string;
  readonly theirs: string;
  readonly ours: string;
  readonly agrees: boolean;
  readonly why: string;
}

/** The facts with ours computed: some thirty rig curves, tens of milliseconds. */
export function tradeFactRows(): readonly TradeFactRow[] {
  return tradeFacts.map(({ fact, theirs, ours, agrees, why }) => ({
    fact,
    theirs,
    ours: ours(),
    agrees: agrees(),
    why,
  }));
}
