import { describe, expect, it } from 'vitest';
import { singleSwaps, withBore, withPumpSpeed } from '../../../src/engine/rig/change.ts';
import { systemPressureBehindGauge } from '../../../src/engine/rig/operate.ts';
import { prepareRig } from '../../../src/engine/rig/prepare.ts';
import { rigCurve } from '../../../src/engine/rig/sweep.ts';
import { Fault } from '../../../src/faults/issue.ts';
import { AIR, core, hose, port, pumpOf, rigOf } from './fakes.ts';

const RIG = rigOf(pumpOf(2e-3, 2), [hose(4.8e-3, 1.5), port(4.7e-3), core(1.6e-3, 6e-3)]);

describe('single changes of a rig', () => {
  it('are the next hose, half its length, the core out and twice the pump, and leave the rest alone', () => {
    const swaps = singleSwaps(RIG);
    expect(swaps.map((swap) => swap.kind)).toEqual(['bore', 'length', 'remove', 'pump']);
    const [bore, length, remove, pump] = swaps.map((swap) => swap.rig);
    // 3/8 in hoses have a bore of 5/16 in (common practice, no source)
    expect(bore?.parts[0]?.passage).toMatchObject({ bore: 7.938e-3, length: 1.5 });
    expect(length?.parts[0]?.passage).toMatchObject({ bore: 4.8e-3, length: 0.75 });
    expect(remove?.parts.map((part) => part.kind)).toEqual(['hose', 'port']);
    expect(pump?.pump).toEqual({ ...RIG.pump, speed: 4e-3 });
  });

  it('go up by the usual hose sizes and stop at the widest', () => {
    const next = (bore: number): string[] =>
      singleSwaps(rigOf(RIG.pump, [hose(bore, 1)])).flatMap((swap) => (swap.kind === 'bore' ? [swap.size] : []));
    expect(next(4.762e-3)).toEqual(['3/8 in']);
    expect(next(7.938e-3)).toEqual(['1/2 in']);
    expect(next(12.7e-3)).toEqual(['3/4 in']);
    expect(next(19.05e-3)).toEqual([]);
  });

  it('turn a speed table up with the pump', () => {
    const pump = {
      ...pumpOf(2e-3),
      speedTable: [
        [1, 0],
        [100, 2e-3],
      ] as const,
    };
    expect(withPumpSpeed(rigOf(pump), 6e-3).pump.speedTable).toEqual([
      [1, 0],
      [100, 6e-3],
    ]);
  });
});

describe('a part that nothing gets through', () => {
  it('is named', () => {
    const blocked = withBore(RIG, 2, 1e-300);
    for (const work of [
      () => rigCurve(prepareRig(blocked, AIR)),
      () => systemPressureBehindGauge(prepareRig(blocked, AIR), 50),
    ]) {
      expect(work).toThrow(Fault);
      try {
        work();
      } catch (error) {
        if (!(error instanceof Fault) || error.issue.kind !== 'wrong') throw error;
        expect(error.issue.argument).toContain('"core"');
      }
    }
  });
});
