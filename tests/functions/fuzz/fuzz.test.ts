import { describe, expect, it } from 'vitest';
import { functions } from '../../../src/functions/index.ts';
import { fuzzCall, runFuzz } from './run.ts';

/** The same calls each time here; `npm run fuzz` takes a new seed, and prints it. */
const SEED = 20240501;
const CALLS = 50_000;
const PARTS = 10;

describe('every function, called as hosts call it with whatever stands in a sheet', () => {
  // in parts, so that the test process answers between them
  const seen = new Map<string, number>();
  let answers = 0;
  it.each(Array.from({ length: PARTS }, (_, part) => part))(
    'gives finite numbers, text or a fault in words, the same twice, and by array as by cell: part %i',
    (part) => {
      const report = runFuzz(SEED, CALLS / PARTS, { from: (part * CALLS) / PARTS, mostFailures: 5 });
      expect(
        report.failures.map(({ call, id, wrong, told }) => `call ${call}: ${id} gave ${wrong} with ${told}`),
      ).toEqual([]);
      answers += report.answers;
      for (const [id, one] of report.byFunction) seen.set(id, (seen.get(id) ?? 0) + one.answers);
    },
  );

  it('comes to answers and to faults, and to answers of every function', () => {
    expect(answers).toBeGreaterThan(CALLS / 4);
    expect(answers).toBeLessThan((3 * CALLS) / 4);
    expect(functions.map(({ id }) => id).filter((id) => (seen.get(id) ?? 0) === 0)).toEqual([]);
  });

  it('is given again by seed and number of the call', () => {
    const told = (call: number) => {
      const { fn, args } = fuzzCall(7, call);
      return [fn.id, args];
    };
    for (const call of [0, 3, 41]) expect(told(call)).toEqual(told(call));
    expect(told(1)).not.toEqual(told(2));
  });
});
