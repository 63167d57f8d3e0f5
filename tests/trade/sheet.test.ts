import { describe, expect, it } from 'vitest';
import { callById } from '../../src/functions/index.ts';
import { type TradeSetUp, tradeSetUps } from '../../src/tables/library/trade-rigs.ts';

/**
 * The trade's facts (common practice, no source) as somebody meets them in a sheet: library parts by name in a table, and
 * the cell functions around it.
 */
function partsOf(setUps: readonly TradeSetUp[], cfm = 4): (string | null)[][] {
  return [
    ['Rig', 'Part'],
    ...setUps.flatMap((setUp) => [`pump ${cfm} cfm`, ...tradeSetUps[setUp]].map((part) => [setUp, part])),
  ];
}

function numberFrom(id: string, ...args: Parameters<typeof callById>[1]): number {
  const outcome = callById(id, args);
  if (!outcome.ok) throw new Error(outcome.message);
  if (typeof outcome.value !== 'number') throw new Error(`${id} gave no number`);
  return outcome.value;
}

/** L/s of one cfm: 0.3048^3 x 1000 / 60 */
const LITRES_A_SECOND = (0.3048 ** 3 * 1000) / 60;
const meter = (setUp: TradeSetUp): number => numberFrom('RIG.METER', partsOf([setUp]), setUp, null) / LITRES_A_SECOND;

describe('RIG.METER on a parts table of library names', () => {
  it.each([
    ['widePort', 4],
    ['smallPort', 3.8],
    ['smallHose', 1.8],
    ['wideHose', 4],
  ] as const)('%s reads %d cfm within 15 % (common practice, no source)', (setUp, stated) => {
    expect(Math.abs(meter(setUp) - stated)).toBeLessThanOrEqual(0.15 * stated);
  });

  it('the small hose on a fitted core reads half a cfm at best (common practice, no source)', () => {
    expect(meter('smallHoseOnCore')).toBeLessThanOrEqual(0.5);
  });
});

describe('EVAC.TIME to 500 micron behind a small hose on a fitted core', () => {
  it('is the same within 3 % with 4, 5 and 10 cfm (common practice, no source)', () => {
    const times = [4, 5, 10].map((cfm) =>
      numberFrom('EVAC.TIME', 10, partsOf(['smallHoseOnCore'], cfm), 'smallHoseOnCore', [
        ['Target pressure', '500 micron'],
      ]),
    );
    expect(Math.max(...times) / Math.min(...times) - 1).toBeLessThanOrEqual(0.03);
  });
});
