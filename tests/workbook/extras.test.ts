import type { Sheet } from 'hucre';
import { expect, it } from 'vitest';
import { extrasOf } from '../../src/workbook/extras.ts';

it('reads what is repeated on each page, and the rows that begin one', () => {
  // ISO/IEC 29500-1 18.3.1.3: a break stands below the row that it names; the reader counts that from 0
  const sheet = {
    name: 'S',
    rows: [],
    rowBreaks: [4],
    pageSetup: { printTitlesRow: '$2:$3', printTitlesColumn: '$B:$C' },
  };
  expect(extrasOf(sheet as unknown as Sheet).print).toMatchObject({
    repeat: { first: 1, last: 2 },
    repeatColumns: { first: 1, last: 2 },
    breaks: [5],
  });
});

it('knows lists that only help: the file asks for no message about other entries', () => {
  // ISO/IEC 29500-1 18.3.1.32: showErrorMessage is false where it is not given
  const rule = { type: 'list', range: 'A1', values: ['a'] };
  const sheet = { name: 'S', rows: [], dataValidations: [rule, { ...rule, showErrorMessage: true }] };
  expect(extrasOf(sheet as unknown as Sheet).lists.map(({ free }) => free)).toEqual([true, false]);
});
