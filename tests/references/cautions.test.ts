import { expect, it } from 'vitest';
import { cautionNotes } from '../../src/tables/library/caution-notes.ts';
import { runAccount } from './assert.ts';
import { cautions } from './cautions.ts';
import { referenceRows } from './rows.ts';

runAccount(cautions);

it('ships no caution without a reference row', () => {
  expect(cautionNotes.map(({ id }) => id)).toEqual(referenceRows('cautions').map(({ id }) => id));
});
