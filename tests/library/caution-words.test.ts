import { describe, expect, it } from 'vitest';
import { cautionNotes } from '../../src/tables/library/caution-notes.ts';
import { cautionSteps, cautionsFor, refrigerantClasses } from '../../src/tables/library/cautions.ts';
import { findLibraryPart, libraryPart, libraryParts } from '../../src/tables/library/parts.ts';
import { issueOf } from '../issue-of.ts';

const CLASSES = ['A1', 'A2L', 'A2', 'A3', 'B1', 'B2L', 'B2', 'B3'];

describe('a step', () => {
  it.each([
    ['pressure test', ['Pressure-Test', 'pressure', 'pressure testing', 'leak test']],
    ['evacuation', ['EVACUATION', 'evacuate', 'evacuating', 'vacuum']],
    ['recovery', ['Recovery', 'recover', 'recovering']],
    ['charging', ['charging', 'Charge']],
    ['all', ['All', 'every', 'general']],
  ])('%s is known by its other names', (step, names) => {
    for (const name of names) expect(cautionsFor(name), name).toEqual(cautionsFor(step));
    expect(cautionsFor(step).length).toBeGreaterThan(2);
  });

  it('that is not known is told with those that are', () => {
    expect(issueOf(() => cautionsFor('welding'))).toEqual({
      kind: 'unknown',
      what: 'step',
      value: 'welding',
      known: ['pressure test', 'evacuation', 'recovery', 'charging', 'all'],
    });
    expect(cautionSteps).toHaveLength(5);
  });
});

describe('a refrigerant of caution notes', () => {
  it('that is not known is told with the refrigerants and the classes', () => {
    expect(issueOf(() => cautionsFor('all', 'R-9999'))).toEqual({
      kind: 'unknown',
      what: 'refrigerant or safety class',
      value: 'R-9999',
      known: [...refrigerantClasses.keys(), ...CLASSES],
    });
    for (const name of CLASSES) expect(cautionsFor('all', name.toLowerCase()).length).toBeGreaterThan(2);
  });

  it('that is blank leaves nothing out', () => {
    for (const step of cautionSteps) expect(cautionsFor(step, ' ')).toEqual(cautionsFor(step));
  });

  it('has just the notes of its class, of itself, of its series and of all', () => {
    for (const [name, safetyClass] of refrigerantClasses) {
      const wanted = cautionNotes.filter(
        ({ scope }) =>
          scope === undefined ||
          scope.classes?.includes(safetyClass) ||
          scope.refrigerants?.includes(name) ||
          (scope.series400 && name.startsWith('R-4')),
      );
      expect(new Set(cautionsFor('all', name)), name).toEqual(new Set(wanted));
    }
  });

  it('that is a class alone has the notes of its class and all those of single refrigerants and blends', () => {
    for (const name of CLASSES) {
      const wanted = cautionNotes.filter(
        ({ scope }) =>
          scope === undefined ||
          scope.classes?.some((one) => one === name) ||
          scope.refrigerants !== undefined ||
          scope.series400,
      );
      expect(new Set(cautionsFor('all', name)), name).toEqual(new Set(wanted));
    }
  });
});

describe('the order of caution notes', () => {
  it.each(cautionSteps)(
    'for %s: the two first, the own step, then from danger to notice, then as they are listed',
    (step) => {
      const place = (id: string): number => cautionNotes.findIndex((note) => note.id === id);
      const notes = cautionsFor(step);
      expect(notes.slice(0, 2).map(({ id }) => id)).toEqual(['CA-40', 'CA-41']);
      const keys = notes
        .slice(2)
        .map((note) => [
          note.step === step ? 0 : 1,
          ['danger', 'warning', 'notice'].indexOf(note.severity),
          place(note.id),
        ]);
      for (const [i, key] of keys.slice(1).entries()) {
        const before = keys[i] ?? [];
        const first = key.findIndex((value, j) => value !== before[j]);
        expect(key[first] ?? 0).toBeGreaterThan(before[first] ?? 0);
      }
    },
  );
});

describe('a library part', () => {
  it('is known however inches, feet and times are written', () => {
    const part = libraryPart('hose 1/4 in x 5 ft');
    for (const written of [
      'hose 1/4 inch x 5 foot',
      'hose 1/4 inches by 5 feet',
      'hose 1/4″ × 5′',
      'hose 1/4” x 5 ft',
      `hose 1/4" x 5'`,
    ])
      expect(findLibraryPart(written), written).toBe(part);
  });

  it('that is not known is told with all that are', () => {
    expect(issueOf(() => libraryPart('garden hose'))).toEqual({
      kind: 'unknown',
      what: 'library part',
      value: 'garden hose',
      known: libraryParts.map(({ name }) => name),
    });
    expect(findLibraryPart('garden hose')).toBeUndefined();
  });
});
