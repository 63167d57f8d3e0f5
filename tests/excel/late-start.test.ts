import { describe, expect, it } from 'vitest';
import { functions } from '../../src/functions/index.ts';
import { associateAll } from '../../src/hosts/excel/associate.ts';
import { createStandIn } from '../../src/hosts/excel/stand-in.ts';

const turn = (): Promise<void> => new Promise((done) => setTimeout(done));

describe('a runtime that starts late', () => {
  it('leaves cells busy, and each settles in its own value or error once the functions are registered', async () => {
    const { cell, runtime } = createStandIn();
    const settled: string[] = [];
    const asked = [
      ['inch', cell('CONVERT', 1, 'in', 'mm', { address: 'Sheet1!A1' })],
      ['bore', cell('TUBE.BORE', '3/8 in', null, { address: 'Sheet1!A2' })],
      ['fault', cell('CONVERT', 1, 'in', 'bogus', { address: 'Sheet1!A3' })],
    ] as const;
    const ends = Promise.allSettled(asked.map(([name, one]) => one.finally(() => settled.push(name))));
    await turn();
    expect(settled).toEqual([]);
    associateAll(functions, runtime as never);
    const [inch, bore, fault] = await ends;
    // 1 in = 25.4 mm exactly; ASTM B280 coil: 0.375 in less two walls of 0.032 in
    expect(inch).toMatchObject({ status: 'fulfilled' });
    expect(inch?.status === 'fulfilled' ? inch.value : undefined).toBeCloseTo(25.4, 9);
    expect(bore?.status === 'fulfilled' ? bore.value : undefined).toBeCloseTo((0.375 - 0.064) * 25.4, 9);
    expect(fault?.status).toBe('rejected');
    expect(settled).toHaveLength(3);
  });

  it('answers at once where the functions are there already', async () => {
    const { cell, runtime } = createStandIn();
    associateAll(functions, runtime as never);
    expect(await cell('CONVERT', 2, 'm', 'm', { address: 'Sheet1!A1' })).toBe(2);
  });

  it('registers within one turn, so that no cell waits for a network or a timer', () => {
    const { bodies, runtime } = createStandIn();
    associateAll(functions, runtime as never);
    expect(bodies.size).toBe(functions.length);
  });
});
