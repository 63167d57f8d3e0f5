import { beforeEach, describe, expect, it, vi } from 'vitest';
import { tradeFactRows, tradeFacts } from '../../src/tables/library/trade-facts.ts';

/** What the set-ups would read, so that a fact can be judged on numbers that are known. */
const given = vi.hoisted(() => ({
  reading: {} as Record<string, number>,
  minutes: {} as Record<string, number>,
  conductance: {} as Record<string, number>,
}));
vi.mock('../../src/tables/library/trade-rigs.ts', () => ({
  tradeReading: (setUp: string) => given.reading[setUp] ?? Number.NaN,
  tradeMinutes: (setUp: string, size?: number) => given.minutes[size === undefined ? setUp : `${setUp} ${size}`],
  tradeConductance: (setUp: string) => given.conductance[setUp],
}));

beforeEach(() => {
  given.reading = {};
  given.minutes = {};
  given.conductance = {};
});

function fact(id: string) {
  const found = tradeFacts.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no fact ${id}`);
  return found;
}

describe('a fact of the trade is met within its bounds, to the edge, and not beyond', () => {
  it.each([
    // 15 % of 4, 3.8 and 1.8
    ['wide-port', 'widePort', [3.41, 4, 4.59], [3.39, 4.61]],
    ['small-port', 'smallPort', [3.24, 3.8, 4.36], [3.22, 4.38]],
    ['small-hose', 'smallHose', [1.54, 1.8, 2.06], [1.52, 2.08]],
    ['core-reading', 'smallHoseOnCore', [0.1, 0.5], [0.51]],
    ['two-way', 'twoWayManifold', [0.1, 0.49], [0.5, 1.5]],
    // more than half of a 4 cfm pump
    ['cure', 'cure', [2.01, 4], [2, 0.2]],
  ] as const)('%s', (id, setUp, within, out) => {
    for (const [readings, met] of [
      [within, true],
      [out, false],
    ] as const)
      for (const reading of readings) {
        given.reading = { [setUp]: reading };
        expect(fact(id).agrees(), `${reading} cfm`).toBe(met);
      }
  });

  it.each([
    // 15 % of the second reading
    [
      'wide-hose',
      'wideHose',
      'widePort',
      [[3.5, 4]],
      [
        [3.3, 4],
        [4.7, 4],
      ],
    ],
    [
      'two-way-core',
      'twoWayManifoldOnCore',
      'twoWayManifold',
      [[0.3, 0.4]],
      [
        [0.4, 0.4],
        [0.5, 0.4],
      ],
    ],
    [
      'four-way',
      'fourWayManifold',
      'smallHose',
      [
        [1.7, 1.8],
        [1.8, 1.8],
      ],
      [[1.9, 1.8]],
    ],
  ] as const)('%s, by another reading', (id, one, other, within, out) => {
    for (const [pairs, met] of [
      [within, true],
      [out, false],
    ] as const)
      for (const [first, second] of pairs) {
        given.reading = { [one]: first, [other]: second };
        expect(fact(id).agrees(), `${first} beside ${second} cfm`).toBe(met);
      }
  });

  it('core-loss', () => {
    for (const [left, met] of [
      [0.25, false],
      [0.19, true],
      [0.1, true],
      [0.04, true],
      [0.02, false],
    ] as const) {
      given.conductance = { smallHoseOnCore: left * 8, smallHose: 8 };
      expect(fact('core-loss').agrees(), `${left} is left`).toBe(met);
    }
  });

  it('two-way-minutes', () => {
    for (const [manifold, met] of [
      [31, true],
      [30, false],
      [29, false],
    ] as const) {
      given.minutes = { smallHoseOnCore: 30, twoWayManifoldOnCore: manifold };
      expect(fact('two-way-minutes').agrees()).toBe(met);
    }
  });

  it('bigger-pump, by the largest over the smallest of three', () => {
    const times = (four: number, five: number, ten: number): void => {
      given.minutes = { 'smallHoseOnCore 4': four, 'smallHoseOnCore 5': five, 'smallHoseOnCore 10': ten };
    };
    times(102, 101, 100);
    expect([fact('bigger-pump').agrees(), fact('bigger-pump').ours()]).toEqual([true, '2.0 % apart']);
    times(100, 104, 101);
    expect([fact('bigger-pump').agrees(), fact('bigger-pump').ours()]).toEqual([false, '4.0 % apart']);
  });
});

describe('what ours is, in words', () => {
  it('has two places below 1 cfm and one from there on', () => {
    for (const [reading, words] of [
      [0.994, '0.99 cfm'],
      [0.456, '0.46 cfm'],
      [1, '1.0 cfm'],
      [3.84, '3.8 cfm'],
    ] as const) {
      given.reading = { widePort: reading };
      expect(fact('wide-port').ours()).toBe(words);
    }
  });

  it('has one place below ten minutes and none from there on, and a share in per cent', () => {
    given.minutes = { smallHoseOnCore: 10, twoWayManifoldOnCore: 9.94, cure: 45.6 };
    given.reading = { cure: 2.5 };
    given.conductance = { smallHoseOnCore: 1, smallHose: 8 };
    expect(fact('two-way-minutes').ours()).toBe('10 min against 9.9 min');
    expect(fact('cure').ours()).toBe('2.5 cfm; 46 min instead of 10 min');
    // 1 - 1/8 = 87.5 %, to the whole per cent
    expect(fact('core-loss').ours()).toMatch(/^8[78] %$/);
  });

  it('stands in a row for each fact', () => {
    given.minutes = { 'smallHoseOnCore 4': 1, 'smallHoseOnCore 5': 1, 'smallHoseOnCore 10': 1 };
    given.minutes = { ...given.minutes, smallHoseOnCore: 1, twoWayManifoldOnCore: 2, cure: 1 };
    given.conductance = { smallHoseOnCore: 1, smallHose: 8 };
    const rows = tradeFactRows();
    expect(rows).toHaveLength(tradeFacts.length);
    expect(rows[0]).toMatchObject({ fact: fact('wide-port').fact, theirs: 'about 4 cfm', agrees: false });
  });
});
