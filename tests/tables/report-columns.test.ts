import { describe, expect, it } from 'vitest';
import { toRange } from '../../src/tables/report.ts';

describe('a column of a spilled table', () => {
  it.each([
    ['neither', {}, 'Value', 0.5],
    ['a quantity alone', { quantity: 'length' }, 'Value', 0.5],
    ['a unit alone, which is shown', { metricUnit: 'mm' }, 'Value (mm)', 0.5],
    ['a quantity that is none', { quantity: 'beauty', metricUnit: 'mm' }, 'Value (mm)', 0.5],
    ['both', { quantity: 'length', metricUnit: 'mm' }, 'Value (mm)', 500],
  ])('with %s keeps or converts its numbers', (_, column, header, value) => {
    const table = { columns: [{ name: 'Value', ...column }], rows: [[0.5], ['text'], [null], []] };
    expect(toRange(table, 'metric')).toEqual([[header], [value], ['text'], [''], ['']]);
  });

  it('is in inch units where it has them and they are asked for, else in metric ones', () => {
    const rows = [[0.0254, 1]];
    const columns = [
      { name: 'Bore', quantity: 'length', metricUnit: 'mm', inchUnit: 'in' },
      { name: 'Time', quantity: 'time', metricUnit: 's' },
    ];
    expect(toRange({ columns, rows }, 'inch')).toEqual([
      ['Bore (in)', 'Time (s)'],
      [1, 1],
    ]);
    expect(toRange({ columns, rows }, 'metric')).toEqual([
      ['Bore (mm)', 'Time (s)'],
      [25.4, 1],
    ]);
  });
});
