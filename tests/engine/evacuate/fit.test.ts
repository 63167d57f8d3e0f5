import { describe, expect, it } from 'vitest';
import { fitBoreToLog } from '../../../src/engine/evacuate/fit-log.ts';
import { pullDownTime } from '../../../src/engine/evacuate/pulldown.ts';
import { withBore } from '../../../src/engine/rig/change.ts';
import { fitBoreToReading, fittablePart, throughputFrom } from '../../../src/engine/rig/fit.ts';
import { prepareRig } from '../../../src/engine/rig/prepare.ts';
import { meterReading, throughputAt } from '../../../src/engine/rig/speed.ts';
import { rigCurve } from '../../../src/engine/rig/sweep.ts';
import { Fault } from '../../../src/faults/issue.ts';
import { AIR, core, hose, pumpOf, rigOf } from '../rig/fakes.ts';

const AMBIENT = 101325;
const RIG = rigOf(pumpOf(2.4e-3, 2.7), [hose(4.8e-3, 1.5), core(1.6e-3, 6e-3)]);

describe('fitting the bore of a part', () => {
  it('finds the bore that a meter reading was made with', () => {
    for (const bore of [0.8e-3, 1.3e-3, 2.5e-3]) {
      const reading = meterReading(rigCurve(prepareRig(withBore(RIG, 1, bore), AIR)), AMBIENT);
      expect(fitBoreToReading(RIG, AIR, 1, reading, AMBIENT) / bore).toBeCloseTo(1, 3);
    }
  });

  it('refuses a reading that no bore gives, with the readings that can be had', () => {
    for (const reading of [1e-9, 2.3e-3]) {
      const call = (): number => fitBoreToReading(RIG, AIR, 1, reading, AMBIENT);
      expect(call).toThrow(Fault);
    }
    expect(() => fitBoreToReading(RIG, AIR, 1, 0, AMBIENT)).toThrow(Fault);
  });

  it('finds the bore that a pull-down was logged with', () => {
    const bore = 1.2e-3;
    const curve = rigCurve(prepareRig(withBore(RIG, 1, bore), AIR));
    const pressure = [AMBIENT, 3e4, 1e4, 2e3, 500, 150, 80];
    const time = pressure.map((p, i) => (i === 0 ? 0 : pullDownTime(curve, 0.03, AMBIENT, p)));
    expect(fitBoreToLog(RIG, AIR, 1, 0.03, { time, pressure }) / bore).toBeCloseTo(1, 3);
  });

  it('bears readings that are off by a few per cent', () => {
    const bore = 1.2e-3;
    const curve = rigCurve(prepareRig(withBore(RIG, 1, bore), AIR));
    const exact = [AMBIENT, 3e4, 1e4, 2e3, 500, 150, 80];
    const time = exact.map((p, i) => (i === 0 ? 0 : pullDownTime(curve, 0.03, AMBIENT, p)));
    const pressure = exact.map((p, i) => (i === 0 ? p : p * (i % 2 === 0 ? 1.03 : 0.97)));
    expect(Math.abs(fitBoreToLog(RIG, AIR, 1, 0.03, { time, pressure }) / bore - 1)).toBeLessThan(0.05);
  });

  it('refuses a log that is too short, and one that no bore explains', () => {
    expect(() => fitBoreToLog(RIG, AIR, 1, 0.03, { time: [0, 60], pressure: [AMBIENT, 1e4] })).toThrow(Fault);
    const hopeless = { time: [0, 1, 2], pressure: [AMBIENT, 100, 10] };
    expect(() => fitBoreToLog(RIG, AIR, 1, 0.03, hopeless)).toThrow(Fault);
  });

  it('names the parts there are, and refuses one without a bore', () => {
    const valve = { kind: 'valve', kv: 0.2, pressureDropRatio: 0.7 } as const;
    const rig = rigOf(RIG.pump, [
      ...RIG.parts,
      { ...hose(1e-3, 1), name: 'ball valve', kind: 'valve', passage: valve },
    ]);
    expect(fittablePart(rig, ' CORE ')).toBe(1);
    expect(() => fittablePart(rig, 'elbow')).toThrow(Fault);
    expect(() => fittablePart(rig, 'ball valve')).toThrow(Fault);
  });

  it('finds the flow from a system pressure without the curve as with it', () => {
    const prepared = prepareRig(RIG, AIR);
    const curve = rigCurve(prepared);
    for (const p of [3, 66.66, 1e3, AMBIENT])
      expect(throughputFrom(prepared, p) / throughputAt(curve, p)).toBeCloseTo(1, 3);
    expect(throughputFrom(prepared, 2.7)).toBe(0);
  });
});
