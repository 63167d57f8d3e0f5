import { readFileSync } from 'node:fs';
import { readXlsx } from 'hucre/xlsx';
import { describe, expect, it } from 'vitest';

describe('the swaps of the small job of the estimator, as stored', () => {
  it('begin with the pump hours of Results, each saves less than the one above, and before less saved is after', async () => {
    const { sheets } = await readXlsx(readFileSync('templates/example-estimator.xlsx'));
    const rowsOf = (name: string) => sheets.find((sheet) => sheet.name === name)?.rows ?? [];
    const swaps = rowsOf('Swaps');
    const header = swaps.findIndex(([first]) => first === 'Rig');
    const at = (name: string): number => (swaps[header] ?? []).findIndex((cell) => String(cell).startsWith(name));
    const [before, after, saved, share] = ['Pump time before', 'Pump time (', 'Saved (', 'Saved of all'].map(at);
    const numbers = swaps
      .slice(header + 1)
      .filter(([rig]) => typeof rig === 'string' && rig !== '')
      .map((row) => [before, after, saved, share].map((column) => Number(row[column ?? 0])));
    const [asItIs = [], ...changes] = numbers;
    expect(changes.length).toBeGreaterThan(5);

    const results = rowsOf('Results');
    const total = results.flatMap((row) => row.filter((_, i) => i > 0 && String(row[0]).startsWith('Pump hours')));
    expect(asItIs[0]).toBeCloseTo(Number(total[0]), 9);
    for (const [index, [was = 0, is = 0, less = 0, part = 0]] of changes.entries()) {
      expect(was - is).toBeCloseTo(less, 9);
      expect(part).toBeCloseTo((100 * less) / Number(total[0]), 6);
      expect(less).toBeLessThanOrEqual(changes[index - 1]?.[2] ?? Number.POSITIVE_INFINITY);
    }
  });
});
