import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Fault } from '../../src/faults/issue.ts';
import { cautionNotes } from '../../src/tables/library/caution-notes.ts';
import { cautionSteps, cautionsFor, refrigerantClasses } from '../../src/tables/library/cautions.ts';
import { cite, referenceRows } from '../references/rows.ts';

const subjects = [undefined, ...refrigerantClasses.keys()];

describe('the caution notes for a step', () => {
  it('begin with local codes and licensed practice, whatever the step and the refrigerant', () => {
    fc.assert(
      fc.property(fc.constantFrom(...cautionSteps), fc.constantFrom(...subjects), (step, refrigerant) => {
        const [first, second] = cautionsFor(step, refrigerant);
        expect(first?.text).toMatch(/local codes.*licensed technician come first/i);
        expect(second?.text).toMatch(/laws/i);
      }),
    );
  });

  it('go from danger to notice within the step, then those that hold for every step', () => {
    const notes = cautionsFor('evacuation').slice(2);
    const own = notes.filter(({ step }) => step === 'evacuation');
    expect(notes.slice(0, own.length)).toEqual(own);
    const order = own.map(({ severity }) => ['danger', 'warning', 'notice'].indexOf(severity));
    expect(order).toEqual([...order].sort());
  });

  it('hold nothing of another step, unless all is asked for', () => {
    expect(new Set(cautionsFor('charging').map(({ step }) => step))).toEqual(new Set(['charging', 'all']));
    expect(cautionsFor('all')).toHaveLength(cautionNotes.length);
  });

  it('warn of fire with R-32 and R-290 and not with R-134a', () => {
    const fire = (refrigerant: string) =>
      cautionsFor('evacuation', refrigerant).some(({ text }) => text.includes('A2L or A3'));
    expect([fire('R-32'), fire('r290'), fire('A2L'), fire('R-134a')]).toEqual([true, true, true, false]);
  });

  it('warn of composition with blends of the 400 series only, and of cylinder pressure with R-410A', () => {
    const charging = (refrigerant: string) =>
      cautionsFor('charging', refrigerant).some(({ text }) => text.includes('zeotropic'));
    expect([charging('R-407C'), charging('R-513A'), charging('R-32')]).toEqual([true, false, false]);
    expect(cautionsFor('recovery', 'R-410A').some(({ text }) => text.includes('higher rating'))).toBe(true);
  });

  it('warn of poison with ammonia and of high pressure with carbon dioxide', () => {
    expect(cautionsFor('all', 'ammonia').some(({ why }) => why === 'toxic')).toBe(true);
    expect(cautionsFor('all', 'R-744').some(({ text }) => text.includes('CO2 systems'))).toBe(true);
    expect(cautionsFor('all', 'R-22').some(({ why }) => why === 'toxic')).toBe(false);
  });

  it('leave nothing out by a refrigerant that holds for all', () => {
    for (const note of cautionNotes.filter(({ appliesTo }) => appliesTo === 'all'))
      for (const refrigerant of refrigerantClasses.keys()) expect(cautionsFor(note.step, refrigerant)).toContain(note);
  });

  it('are refused for a step or a refrigerant that is not known, never shortened in silence', () => {
    const issueOf = (run: () => unknown) => {
      try {
        return run();
      } catch (error) {
        return error instanceof Fault ? error.issue : error;
      }
    };
    expect(issueOf(() => cautionsFor('welding'))).toMatchObject({ kind: 'unknown', what: 'step' });
    expect(issueOf(() => cautionsFor('charging', 'R-9999'))).toMatchObject({ kind: 'unknown', value: 'R-9999' });
    expect(issueOf(() => cautionsFor('constructor'))).toMatchObject({ kind: 'unknown' });
  });
});

describe('the safety class of a refrigerant is that of the reference file', () => {
  const rows = referenceRows('refrigerants').filter(({ cells }) => cells.record === 'safety_class');
  it.each(rows.map((row) => [row.cells.refrigerant ?? '', row] as const))('%s', (name, row) => {
    expect(refrigerantClasses.get(name), cite(row)).toBe(row.value);
  });
  it('covers all of its refrigerants', () => expect(rows).toHaveLength(13));
});
