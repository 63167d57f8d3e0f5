import { describe, expect, it } from 'vitest';
import {
  CORE_LOSS,
  CORE_READING,
  coreLoss,
  PUMP_SLACK,
  pumpSpread,
  READING_SLACK,
  STATED,
  tradeFactRows,
  tradeFacts,
} from '../../src/tables/library/trade-facts.ts';
import { tradeConductance, tradeMinutes, tradeReading } from '../../src/tables/library/trade-rigs.ts';

/** Every figure here: common practice, no source. */
const NO_SOURCE = 'common practice, no source';

function expectReading(ours: number, stated: number): void {
  expect(Math.abs(ours - stated), `${ours.toFixed(3)} cfm for ${stated} cfm (${NO_SOURCE})`).toBeLessThanOrEqual(
    READING_SLACK * stated,
  );
}

describe('a free-air meter on a 4 cfm pump reads what the trade says, within 15 %', () => {
  it('4 cfm at its open 3/8 in port', () => expectReading(tradeReading('widePort'), 4));
  it('3.8 cfm at its open 1/4 in port', () => expectReading(tradeReading('smallPort'), 3.8));
  it('1.8 cfm through one 1/4 in hose with its depressor', () => expectReading(tradeReading('smallHose'), 1.8));
  it('what the pump alone reads through a wide 1/2 in hose', () =>
    expectReading(tradeReading('wideHose'), tradeReading('widePort')));
  it('half a cfm at best through the small hose on a fitted core', () => {
    expect(tradeReading('smallHoseOnCore'), NO_SOURCE).toBeLessThanOrEqual(0.5);
    expect(tradeReading('smallHoseOnCore'), NO_SOURCE).toBeGreaterThan(0);
  });
});

describe('the set-ups stand in the order that the trade gives them', () => {
  it('wide port, small port, small hose, manifold with two small hoses', () => {
    const readings = (['widePort', 'smallPort', 'smallHose', 'twoWayManifold'] as const).map((setUp) =>
      tradeReading(setUp),
    );
    expect(readings, NO_SOURCE).toEqual([...readings].sort((a, b) => b - a));
    expect(new Set(readings).size).toBe(readings.length);
  });

  it('on a core each set-up reads less than without', () => {
    expect(tradeReading('smallHoseOnCore'), NO_SOURCE).toBeLessThan(tradeReading('smallHose'));
    expect(tradeReading('twoWayManifoldOnCore'), NO_SOURCE).toBeLessThan(tradeReading('twoWayManifold'));
    expect(tradeReading('fourWayManifoldOnCore'), NO_SOURCE).toBeLessThan(tradeReading('fourWayManifold'));
  });

  it('a 3/8 in hose to a four-way manifold and a small one onward is no better than the small hose', () => {
    expect(tradeReading('fourWayManifold'), NO_SOURCE).toBeLessThanOrEqual(tradeReading('smallHose'));
    expect(tradeMinutes('fourWayManifold'), NO_SOURCE).toBeGreaterThanOrEqual(tradeMinutes('smallHose'));
  });

  it('manifold and two small hoses on a core are the slowest of all', () => {
    for (const other of ['smallHoseOnCore', 'twoWayManifold', 'fourWayManifold', 'fourWayManifoldOnCore'] as const)
      expect(tradeMinutes('twoWayManifoldOnCore'), `${other}: ${NO_SOURCE}`).toBeGreaterThan(tradeMinutes(other));
  });

  it('the cure, core out and a wide hose, beats every set-up with a small hose', () => {
    for (const other of ['smallHose', 'smallHoseOnCore', 'twoWayManifold', 'fourWayManifold'] as const) {
      expect(tradeReading('cure'), `${other}: ${NO_SOURCE}`).toBeGreaterThan(tradeReading(other));
      expect(tradeMinutes('cure'), `${other}: ${NO_SOURCE}`).toBeLessThan(tradeMinutes(other));
    }
  });
});

describe('the core', () => {
  it('takes 80 to 97 % of the conductance of the small hose while the meter reads', () => {
    const loss = 1 - tradeConductance('smallHoseOnCore') / tradeConductance('smallHose');
    expect(loss, NO_SOURCE).toBeGreaterThanOrEqual(0.8);
    expect(loss, NO_SOURCE).toBeLessThanOrEqual(0.97);
  });

  it('costs more time than a pump of half the size', () => {
    expect(tradeMinutes('smallHoseOnCore', 10), NO_SOURCE).toBeGreaterThan(tradeMinutes('smallHose', 5));
  });
});

describe('a bigger pump makes no difference behind a small hose on a core', () => {
  it('pull-downs to 500 micron with 4, 5 and 10 cfm lie within 3 %', () => {
    const times = [4, 5, 10].map((size) => tradeMinutes('smallHoseOnCore', size));
    expect(Math.max(...times) / Math.min(...times) - 1, NO_SOURCE).toBeLessThanOrEqual(0.03);
  });

  it('but it does behind the cure', () => {
    expect(tradeMinutes('cure', 10), NO_SOURCE).toBeLessThan(0.97 * tradeMinutes('cure', 4));
  });
});

describe('the record of ours against theirs', () => {
  it('tells the truth on what agrees', () => {
    const parted = tradeFacts.filter(({ agrees }) => !agrees()).map(({ id }) => id);
    // a manifold with two small hoses passes more than "next to nothing": the record says why
    expect(parted).toEqual(['two-way']);
  });

  it('gives a reason for each, and figures computed now', () => {
    for (const row of tradeFactRows()) {
      expect(row.ours).toMatch(/\d/);
      expect(row.why.length).toBeGreaterThan(20);
    }
  });

  it('uses the limits of these checks', () => {
    expect([READING_SLACK, PUMP_SLACK, CORE_READING, ...CORE_LOSS]).toEqual([0.15, 0.03, 0.5, 0.8, 0.97]);
    expect(STATED).toEqual({ pump: 4, widePort: 4, smallPort: 3.8, smallHose: 1.8 });
    expect(pumpSpread()).toBeGreaterThanOrEqual(0);
    expect(coreLoss()).toBeLessThan(1);
  });
});
