import { afterEach, describe, expect, it } from 'vitest';
import { closeEditors, editor } from './editor.ts';

afterEach(closeEditors);

describe('a result that comes out smaller than before', () => {
  it('leaves nothing of its old values to formulas that read where it was, in the same calculation', async () => {
    const sheet = await editor({ C1: 5, A1: '=SEQUENCE(C1)', E1: '=SUM(A1:A10)', E2: '=COUNT(A1:A10)', E3: '=A4' });
    expect([sheet.at('E1'), sheet.at('E2'), sheet.at('E3')]).toEqual([15, 5, 4]);
    await sheet.type({ C1: 2 });
    expect([sheet.at('E1'), sheet.at('E2'), sheet.at('A2')]).toEqual([3, 2, 2]);
    expect(sheet.at('A3') ?? '').toBe('');
    await sheet.type({ E4: '=SUM(A1:A10)', E5: '=COUNTA(A3:A10)' });
    expect([sheet.at('E4'), sheet.at('E5')]).toEqual([3, 0]);
    await sheet.type({ C1: 4 });
    expect([sheet.at('E1'), sheet.at('E2'), sheet.at('E3'), sheet.at('E4')]).toEqual([10, 4, 4, 10]);
  });

  it('leaves nothing when it becomes a single value, an error, or is deleted', async () => {
    const sheet = await editor({
      C1: 5,
      A1: '=SEQUENCE(C1,2)',
      E1: '=SUM(A1:B10)',
      H1: '=SEQUENCE(3)',
      E2: '=SUM(H1:H9)',
    });
    expect([sheet.at('E1'), sheet.at('E2')]).toEqual([55, 6]);
    await sheet.type({ C1: 1, A1: '=C1' });
    expect([sheet.at('E1'), sheet.at('E2')]).toEqual([1, 6]);
    expect(sheet.at('B2') ?? '').toBe('');
    await sheet.type({ H1: null });
    expect(sheet.at('E2')).toBe(0);
    await sheet.type({ J1: '=SUM(H1:H9)', J2: '=SUM(A1:B10)' });
    expect([sheet.at('J1'), sheet.at('J2')]).toEqual([0, 1]);
  });

  it('frees its room for another result', async () => {
    const sheet = await editor({ C1: 4, A1: '=SEQUENCE(C1)', A4: '=SEQUENCE(3)+10', E1: '=SUM(A1:A9)' });
    await sheet.type({ C1: 3 });
    expect(['A3', 'A4', 'A5', 'A6'].map((cell) => sheet.at(cell))).toEqual([3, 11, 12, 13]);
    expect(sheet.at('E1')).toBe(42);
    await sheet.type({ A4: '=SEQUENCE(2)+20' });
    expect(['A3', 'A4', 'A5'].map((cell) => sheet.at(cell))).toEqual([3, 21, 22]);
    expect(sheet.at('A6') ?? '').toBe('');
    expect(sheet.at('E1')).toBe(49);
  });
});
