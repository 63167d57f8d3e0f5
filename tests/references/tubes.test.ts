import { expect, it } from 'vitest';
import { tubeSizes } from '../../src/tables/library/tube-sizes.ts';
import { runAccount } from './assert.ts';
import { referenceRows } from './rows.ts';
import { standardOf, tubes } from './tubes.ts';

runAccount(tubes);

it('the library lists no tube that has no reference row', () => {
  expect(tubeSizes).toHaveLength(referenceRows('tubes_copper').filter((row) => standardOf(row) !== undefined).length);
});
