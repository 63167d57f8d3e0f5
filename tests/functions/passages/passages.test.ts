import { describe, expect, it } from 'vitest';
import { callFunction } from '../../../src/functions/adapter.ts';
import type { RawArgument } from '../../../src/functions/define.ts';
import type { Outcome } from '../../../src/functions/outcome.ts';
import { passages } from '../../../src/functions/passages/index.ts';

function call(id: string, ...args: RawArgument[]): Outcome {
  const found = passages.find((fn) => fn.id === id);
  if (found === undefined) throw new Error(`no function ${id}`);
  return callFunction(found, args);
}

function value(id: string, ...args: RawArgument[]): number {
  const outcome = call(id, ...args);
  if (!outcome.ok || typeof outcome.value !== 'number') throw new Error(JSON.stringify(outcome));
  return outcome.value;
}

function message(id: string, ...args: RawArgument[]): string {
  const outcome = call(id, ...args);
  return outcome.ok ? `no fault: ${JSON.stringify(outcome.value)}` : `${outcome.code} ${outcome.message}`;
}

describe('passages in cells', () => {
  it('a long thin hose of air has the molecular conductance of the handbook: 12.1 D^3/L', () => {
    // L/s with cm. Source: vacuum-technology handbooks, row HB-02; a hose has ends, so a little less
    const theirs = (12.1 * 0.476 ** 3) / 150;
    const ours = value('TUBE.CONDUCTANCE', '4.76 mm', '1.5 m', 0);
    expect(ours / theirs).toBeGreaterThan(0.98);
    expect(ours / theirs).toBeLessThan(1.01);
  });

  it('units in, units out: inches and feet say the same as millimetres and metres', () => {
    const inch = value('TUBE.FLOW', '1/4 in', '5 ft', '1000 micron', '100 micron');
    const metric = value('TUBE.FLOW', 6.35, 1.524, 133.32237, 13.332237);
    expect(inch / metric).toBeCloseTo(1, 6);
  });

  it('water vapour is lighter than air and leaves a molecular hose faster', () => {
    const gas = [['Gas', 'water vapour']];
    expect(value('TUBE.CONDUCTANCE', 4.76, 1.5, 0, gas) / value('TUBE.CONDUCTANCE', 4.76, 1.5, 0)).toBeCloseTo(
      Math.sqrt(28.9655 / 18.0153),
      4,
    );
  });

  it('a bend in the hose lowers the flow', () => {
    expect(value('TUBE.FLOW', 6, 0.5, 101325, 0, 4)).toBeLessThan(value('TUBE.FLOW', 6, 0.5, 101325, 0));
  });

  it('equal pressures pass nothing', () => {
    expect(value('TUBE.FLOW', 6, 0.5, 1000, 1000)).toBe(0);
    expect(value('PORT.FLOW', 6, 1000, 1000)).toBe(0);
    expect(value('VALVE.FLOW', 1000, 1000, 1, 'Kv')).toBe(0);
  });

  it('the sonic conductance of a valve means the same as a number and as text', () => {
    expect(value('VALVE.FLOW', 3e5, 0, 4e-8, 'C')).toBeCloseTo(value('VALVE.FLOW', 3e5, 0, '4 dm3/(s bar)', 'c'), 9);
    // C rho0 p1 R_s T with R_s T = p/rho at the reference state of dry air. Source: ISO 6358-1
    const theirs = 4e-8 * 1.185 * 3e5 * (8.314462618 / 0.0289655) * 293.15;
    expect(value('VALVE.FLOW', 3e5, 0, 4e-8, 'C') / theirs).toBeCloseTo(1, 5);
  });

  it('a Cv of 1 is a Kv of 0.865', () => {
    expect(value('VALVE.FLOW', 3e5, 1e5, 1, 'Cv')).toBeCloseTo(value('VALVE.FLOW', 3e5, 1e5, 0.865, 'Kv'), 9);
  });

  it('a valve that chokes passes less the sooner it chokes', () => {
    // Choked, IEC 60534-2-1 has W ~ (2/3) sqrt(F_gamma x_T), x_T = 1 - b: from b = 0.3 to 0.6 a factor of sqrt(0.4/0.7)
    const flow = (ratio: number): number => value('VALVE.FLOW', '5 bar', 1000, 1, 'Kv', ratio);
    expect(flow(0.6) / flow(0.3)).toBeCloseTo(Math.sqrt(0.4 / 0.7), 6);
  });

  it('very small and very large Knudsen numbers are written with an exponent', () => {
    const text = (bore: string, pressure: string): string => {
      const outcome = call('REGIME', bore, pressure);
      return outcome.ok ? String(outcome.value) : outcome.message;
    };
    // free path of air at 20 °C and 101325 Pa: 66 nm, from memory
    expect(text('100 mm', '10 bar')).toMatch(/^viscous \(Kn 6\.\de-8\)$/);
    expect(text('10 mm', '101325 Pa')).toMatch(/^viscous \(Kn 0\.000006\d\)$/);
    expect(text('1 mm', '1e-6 Pa')).toMatch(/^molecular \(Kn 6\.\de\+6\)$/);
    expect(text('1 mm', '1e-4 Pa')).toMatch(/^molecular \(Kn 6\d000\)$/);
  });

  it('names the regime', () => {
    expect(call('REGIME', 4.76, 1e5)).toMatchObject({
      ok: true,
      value: expect.stringMatching(/^viscous \(Kn 0\.0000/),
    });
    expect(call('REGIME', 4.76, 1e-3)).toMatchObject({
      ok: true,
      value: expect.stringMatching(/^molecular \(Kn 1400\)/),
    });
  });

  it('two hoses one behind another pass half, side by side double', () => {
    expect(value('SERIES', 2, 2)).toBeCloseTo(1, 12);
    expect(value('SERIES', [[2], [2]])).toBeCloseTo(1, 12);
    expect(value('PARALLEL', 2, '2 L/s', [[1, '', 1]])).toBeCloseTo(6, 12);
  });
});

describe('faults of passages name the argument and the limit', () => {
  it.each([
    [['TUBE.FLOW', 0, 1, 10, 0], /^#VALUE! Bore is 0 mm.*above 0 mm/],
    [['TUBE.FLOW', -3, 1, 10, 0], /^#VALUE! Bore is -3 mm/],
    [['TUBE.FLOW', 5, -1, 10, 0], /^#VALUE! Length is -1 m/],
    [['TUBE.FLOW', 5, 1, 10, 20], /^#VALUE! Inlet is 10 Pa and outlet is 20 Pa/],
    [['TUBE.FLOW', 5, 1, 0, 0], /^#VALUE! Inlet is 0 Pa/],
    [['TUBE.FLOW', 5, 1, '10 furlong', 0], /furlong/],
    [['TUBE.FLOW', 5, 1, Number.NaN, 0], /^#VALUE! Inlet/],
    [['TUBE.FLOW', '', 1, 10, 0], /^#VALUE! Bore/],
    [['TUBE.FLOW', 5, 1, 10, 0, -1], /^#VALUE! Loss is -1/],
    [['TUBE.CONDUCTANCE', 5, 1, -1], /^#VALUE! Pressure/],
    [['PORT.FLOW', 5, 10, 0, 1.5], /^#VALUE! Coefficient is 1.5/],
    [['PORT.FLOW', 5, 10, 20], /^#VALUE! Inlet is 10 Pa/],
    [['VALVE.FLOW', 10, 20, 1, 'Kv'], /^#VALUE! Inlet is 10 Pa/],
    [['VALVE.FLOW', 10, 0, 1, 'Kx'], /^#N\/A .*Kv, Cv, C/],
    [['VALVE.FLOW', 10, 0, 0, 'Kv'], /^#VALUE! Coefficient is 0/],
    [['VALVE.FLOW', 10, 0, 'wide', 'C'], /^#VALUE! Coefficient/],
    [['VALVE.FLOW', 10, 0, 1, 'Kv', 1], /^#VALUE! Critical ratio is 1/],
    [['REGIME', 5, 0], /^#VALUE! Pressure is 0 Pa/],
    [['SERIES', 1, 0], /^#VALUE! Conductance/],
    [['PARALLEL', -1], /^#VALUE! Conductance/],
    [['TUBE.CONDUCTANCE', 5, 1, 10, [['Gas', 'ether']]], /ether/],
  ] as [[string, ...RawArgument[]], RegExp][])('%j', ([id, ...args], words) => {
    expect(message(id, ...args)).toMatch(words);
  });
});
