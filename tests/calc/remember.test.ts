import { describe, expect, it } from 'vitest';
import { remembering } from '../../src/calc/remember.ts';
import type { RawArgument } from '../../src/functions/define.ts';
import { functions } from './fixture.ts';

const [fn, other] = functions;
if (fn === undefined || other === undefined) throw new Error('the fixture has too few functions');

function counted() {
  const seen = { count: 0 };
  const call = remembering((called, args: readonly RawArgument[]) => {
    seen.count += 1;
    return { ok: true, value: `${called.id} ${JSON.stringify(args)} ${seen.count}` };
  });
  return { seen, call };
}

describe('a call with the same content is answered from memory', () => {
  it('works out a table once, however often it is read', () => {
    const { seen, call } = counted();
    const table = () => [
      ['Rig', 'Bore (mm)'],
      ['A', 4.8],
    ];
    expect(call(fn, [table(), 'A'])).toEqual(call(fn, [table(), 'A']));
    expect(seen.count).toBe(1);
  });

  it('tells apart what a person would: another function, value, shape, order, and text that looks like a number', () => {
    const { seen, call } = counted();
    const calls: readonly (readonly RawArgument[])[] = [
      [1],
      ['1'],
      [true],
      ['true'],
      [null],
      [''],
      [],
      [undefined],
      [-0],
      [0],
      [1, 2],
      [2, 1],
      [[[1, 2]]],
      [[[1], [2]]],
      [[[1]], [[2]]],
      ['1\t2'],
      [[['a\tb']]],
      [[['a', 'b']]],
      [[[{ error: '#N/A' }]]],
      [[[{ error: '#N/A', message: 'why' }]]],
      [[['#N/A']]],
    ];
    for (const args of calls) call(fn, args);
    call(other, [1]);
    expect(seen.count).toBe(calls.length + 1);
  });

  it('keeps errors as well, since the same input breaks the same way', () => {
    let count = 0;
    const call = remembering(() => {
      count += 1;
      return { ok: false, code: '#N/A', message: 'no such rig' };
    });
    expect([call(fn, ['Z']), call(fn, ['Z'])].map((outcome) => outcome.ok)).toEqual([false, false]);
    expect(count).toBe(1);
  });

  it('does not hold on to very large tables', () => {
    const { seen, call } = counted();
    const large = Array.from({ length: 10_000 }, () => [1, 2, 3]);
    call(fn, [large]);
    call(fn, [large]);
    expect(seen.count).toBe(2);
  });
});
