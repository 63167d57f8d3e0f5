import { expect, it } from 'vitest';
import { recordsOf } from './account.ts';
import { runAccount } from './assert.ts';
import { refrigerants } from './refrigerants.ts';

runAccount(refrigerants);

it('more than a hundred rows of refrigerants are run', () => {
  expect(recordsOf(refrigerants).filter(({ comparisons }) => comparisons.length > 0).length).toBeGreaterThan(100);
});
