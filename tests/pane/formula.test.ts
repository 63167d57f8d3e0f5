import { describe, expect, it } from 'vitest';
import { findFunction, functions } from '../../src/functions/index.ts';
import { argumentText, callText, signature } from '../../src/pane/formula.ts';
import { byGroup, searchFunctions } from '../../src/pane/search.ts';

describe('what a person types for an argument becomes that argument of a formula', () => {
  it.each([
    ['3/8 in', 'quantity', '"3/8 in"'],
    ['12.5', 'quantity', '12.5'],
    ['-4e-3', 'number', '-4e-3'],
    ['B4', 'quantity', 'B4'],
    ['$B$4:$D$9', 'table', '$B$4:$D$9'],
    ["'Pipe runs'!A4:G78", 'table', "'Pipe runs'!A4:G78"],
    ['Parts', 'table', 'Parts'],
    ['Parts', 'text', '"Parts"'],
    ['= B2*2', 'quantity', 'B2*2'],
    ['"air"', 'text', '"air"'],
    ['5" hose', 'text', '"5"" hose"'],
    ['{"Rig","Kind";"a","pump"}', 'table', '{"Rig","Kind";"a","pump"}'],
    ['  ', 'text', ''],
  ] as const)('%s as %s', (typed, kind, expected) => {
    expect(argumentText(typed, kind)).toBe(expected);
  });

  it('leaves out what is blank at the end and keeps the place of what is blank between', () => {
    const fn = findFunction('EVAC.TIME');
    if (fn === undefined) throw new Error('there is no EVAC.TIME');
    expect(callText(fn, ['30', 'Parts', 'A', ''])).toBe('=NARROWS.EVAC.TIME(30, Parts, "A")');
    expect(callText(fn, ['30', '', 'A'])).toBe('=NARROWS.EVAC.TIME(30, , "A")');
  });

  it('shows which arguments may be left out', () => {
    const fn = findFunction('TUBE.BORE');
    if (fn === undefined) throw new Error('there is no TUBE.BORE');
    expect(signature(fn)).toBe('NARROWS.TUBE.BORE(size, [standard])');
  });
});

describe('the search of the pane', () => {
  it('finds a function by its name, with or without the namespace, and by words of its help', () => {
    const ids = (query: string) => searchFunctions(functions, query).map((fn) => fn.id);
    expect(ids('=NARROWS.TUBE.BORE')).toContain('TUBE.BORE');
    expect(ids('tube bore')).toContain('TUBE.BORE');
    expect(ids('nothing has this name')).toEqual([]);
    expect(ids('').length).toBe(functions.length);
  });

  it('keeps every function in one group', () => {
    const grouped = [...byGroup(functions).values()].flat();
    expect(grouped.length).toBe(functions.length);
  });
});
