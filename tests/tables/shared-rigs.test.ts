import { describe, expect, it } from 'vitest';
import { keeping, keepingOf } from '../../src/engine/keep.ts';
import { sharedRecords } from '../../src/tables/cache.ts';
import { readParts } from '../../src/tables/rigs.ts';

const table = (length: number) => [
  ['Rig', 'Part', 'Kind', 'Bore (mm)', 'Length (m)', 'Speed (cfm)'],
  ['small', 'pump', 'pump', '', '', 4],
  ['small', 'hose', 'hose', 4.8, length, ''],
  ['wide', 'pump', 'pump', '', '', 4],
  ['wide', 'hose', 'hose', 12.7, 1.5, ''],
];

describe('what is worked out for a rig outlives a change of another', () => {
  it('a rig that reads the same is the same record, one that changed is not', () => {
    const before = readParts(table(1.5));
    const after = readParts(table(1.6));
    expect(after.rig('wide')).toBe(before.rig('wide'));
    expect(after.rig('small')).not.toBe(before.rig('small'));
    expect(after.rig('small').parts[0]?.passage).toMatchObject({ length: 1.6 });
    expect(readParts(table(1.5)).rig('small')).toBe(before.rig('small'));
  });

  it('numbers that JSON has no word for are told apart', () => {
    const shared = sharedRecords<{ readonly at: number | null }>(8);
    const endless = shared({ at: Number.POSITIVE_INFINITY });
    expect(shared({ at: Number.NEGATIVE_INFINITY })).not.toBe(endless);
    expect(shared({ at: null })).not.toBe(endless);
    expect(shared({ at: Number.POSITIVE_INFINITY })).toBe(endless);
  });
});

describe('answers by key', () => {
  it('are made once, undefined too, and the longest unused goes first', () => {
    const keep = keeping<string | undefined>(2);
    const made: string[] = [];
    const ask = (key: string) =>
      keep(key, () => {
        made.push(key);
        return key === 'none' ? undefined : key;
      });
    for (const key of ['a', 'none', 'none', 'a', 'b', 'a', 'none']) ask(key);
    expect(made).toEqual(['a', 'none', 'b', 'none']);
  });

  it('hang on their record', () => {
    const keep = keepingOf<object, number>(4);
    const [one, other] = [{}, {}];
    expect(keep(one, 'k', () => 1)).toBe(1);
    expect(keep(other, 'k', () => 2)).toBe(2);
    expect(keep(one, 'k', () => 3)).toBe(1);
  });

  it('that end in an error are not kept', () => {
    const keep = keeping<number>(4);
    expect(() =>
      keep('k', () => {
        throw new Error('no');
      }),
    ).toThrow('no');
    expect(keep('k', () => 5)).toBe(5);
  });
});
