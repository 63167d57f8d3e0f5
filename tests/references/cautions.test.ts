import { describe, expect, it } from 'vitest';
import { cautionNotes } from '../../src/tables/library/caution-notes.ts';
import { cautionsFor } from '../../src/tables/library/cautions.ts';
import { cite, referenceRows } from './rows.ts';

const rows = referenceRows('cautions');
const basisWords: Readonly<Record<string, string>> = {
  published: 'published',
  'from-memory': 'from memory',
  'common-practice-no-source': 'common practice, no source',
};

describe('every caution of the reference file is shown for its step', () => {
  it.each(rows.map((row) => [`${row.id} ${row.cells.activity}: ${row.cells.why}`, row] as const))('%s', (_, row) => {
    const shown = cautionsFor(row.cells.activity ?? '').find(({ id }) => id === row.id);
    expect(shown, cite(row)).toMatchObject({
      step: row.cells.activity,
      text: row.cells.caution,
      why: row.cells.why,
      severity: row.cells.severity,
      appliesTo: row.cells.applies_to,
      basis: basisWords[row.basis],
    });
  });

  it('ships no caution without a reference row', () => {
    expect(cautionNotes.map(({ id }) => id)).toEqual(rows.map(({ id }) => id));
  });
});
