import { describe, expect, it } from 'vitest';
import { originOf, reasonOf } from '../../src/pane/caution-words.ts';
import { cautionsFor } from '../../src/tables/library/cautions.ts';

describe('what stands behind a caution note', () => {
  it('is a sentence, though the table has it as words', () => {
    expect(reasonOf({ why: 'required by law' })).toBe('Required by law.');
    for (const note of cautionsFor('all')) expect(reasonOf(note)).toMatch(/^[^a-z].*[^.]\.$/u);
  });

  it('says where it is from and how that is known, and the same words once', () => {
    expect(originOf({ source: 'a standard', basis: 'published' })).toBe('a standard (published)');
    const nowhere = 'common practice, no source';
    expect(originOf({ source: nowhere, basis: nowhere })).toBe(nowhere);
  });
});
