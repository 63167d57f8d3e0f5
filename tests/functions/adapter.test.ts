import { describe, expect, it } from 'vitest';
import { raise } from '../../src/faults/issue.ts';
import { callFunction } from '../../src/functions/adapter.ts';
import { type CellFunction, type Declaration, defineFunction, type Parameters } from '../../src/functions/define.ts';
import {
  anyRange,
  choice,
  conditions,
  list,
  number,
  optional,
  partsTable,
  quantity,
  repeating,
  text,
} from '../../src/functions/parameters.ts';

/** A function made for one test. */
function made<P extends Parameters>(
  parameters: P,
  body: Declaration<P>['body'],
  result: Declaration<P>['result'] = { kind: 'number', unit: '', description: '' },
): CellFunction {
  return defineFunction({ id: 'TEST', group: 'Words', summary: '', parameters, result, examples: [], body });
}

const area = made(
  { bore: quantity('length', 'mm', 'bore', { above: 0 }), length: quantity('length', 'm', 'length') },
  ({ bore, length }) => bore * length,
  { kind: 'number', quantity: 'area', unit: 'mm2', description: '' },
);

describe('a call', () => {
  it('gives SI values to the body and the documented unit to the sheet', () => {
    expect(callFunction(area, [2, 3])).toEqual({ ok: true, value: 6000 });
    expect(callFunction(area, ['2 mm', '3 m'])).toEqual({ ok: true, value: 6000 });
  });

  it('takes a range of one cell for that cell', () => {
    expect(callFunction(area, [[[2]], [['3 m']]])).toEqual({ ok: true, value: 6000 });
  });

  it('counts the cells of a range that is too large for one formula, wide ones too', () => {
    const wide = [Array.from({ length: 200_001 }, () => 1)];
    expect(callFunction(area, [wide, 1])).toMatchObject({ ok: false, message: expect.stringContaining('1 x 200001') });
    const column = Array.from({ length: 1000 }, () => [1]);
    const row = [Array.from({ length: 1000 }, () => 1)];
    expect(callFunction(area, [column, row])).toEqual({
      ok: false,
      code: '#VALUE!',
      message:
        'Bore by length is 1000 x 1000 cells: allowed is at most 200000 cells in one formula. Give the filled cells only, not whole rows or columns.',
    });
  });

  it('refuses more arguments than there are parameters', () => {
    expect(callFunction(area, [1, 2, 3])).toEqual({
      ok: false,
      code: '#VALUE!',
      message: 'TEST was given 3 arguments: it takes 2 at most. Remove the arguments at the end.',
    });
  });

  it.each([[undefined], [null], [''], ['  '], [[[null]]], [[]]])('takes %j for a missing argument', (blank) => {
    expect(callFunction(area, [2, blank])).toMatchObject({
      ok: false,
      code: '#VALUE!',
      message: expect.stringContaining('Length is blank'),
    });
  });

  it('names the argument in words, in the unit that was used', () => {
    const camel = made({ criticalRatio: number('', { below: 1 }) }, () => 1);
    expect(callFunction(camel, [2])).toMatchObject({ message: 'Critical ratio is 2: it must be below 1.' });
    expect(callFunction(area, ['-1 in', 1])).toMatchObject({ message: 'Bore is -1 in: it must be above 0 in.' });
  });

  it.each([
    ['#N/A', '#N/A'],
    ['#NUM!', '#NUM!'],
    ['#VALUE!', '#VALUE!'],
    ['#REF!', '#VALUE!'],
    ['#DIV/0!', '#VALUE!'],
    ['#NAME?', '#VALUE!'],
  ])('passes the error %s of an argument on as %s', (error, code) => {
    expect(callFunction(area, [{ error }, 1])).toMatchObject({
      ok: false,
      code,
      message: expect.stringContaining(error),
    });
  });

  it('never throws: a fault of our own is told in words', () => {
    const broken = made({}, () => {
      throw new TypeError('x is not a function');
    });
    expect(callFunction(broken, [])).toMatchObject({
      ok: false,
      code: '#VALUE!',
      message: expect.stringContaining('report'),
    });
  });

  it.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])('does not let %s out', (value) => {
    expect(
      callFunction(
        made({}, () => value),
        [],
      ),
    ).toMatchObject({ ok: false, code: '#NUM!' });
    const table = made({}, () => [['a'], [value]], { kind: 'table', description: '' });
    expect(callFunction(table, [])).toMatchObject({ ok: false, code: '#NUM!' });
  });

  it.each([[[]], [[[]]]])('does not let the empty table %j out', (empty) => {
    expect(
      callFunction(
        made({}, () => empty, { kind: 'table', description: '' }),
        [],
      ),
    ).toMatchObject({ ok: false });
  });
});

describe('omitted arguments', () => {
  const optionals = made(
    { one: optional(number('')), two: optional(number(''), 7), conditions: conditions() },
    ({ one, two, conditions }) => `${one} ${two} ${conditions.gas.name}`,
    { kind: 'text', description: '' },
  );

  it.each([[[]], [[null, null, null]], [['', undefined, '']], [[[[null]], [['']], [[null, null]]]]])(
    '%j are their defaults',
    (args) => {
      expect(callFunction(optionals, args)).toEqual({ ok: true, value: 'undefined 7 air' });
    },
  );

  it('are not confused with zero', () => {
    expect(callFunction(optionals, [0, 0])).toEqual({ ok: true, value: '0 0 air' });
  });
});

describe('repeated arguments', () => {
  const sum = made(
    { values: repeating(list('volume flow', 'L/s', '')) },
    ({ values }) => values.length + values.reduce((a, b) => a + b, 0) * 1000,
  );

  it('join single cells and ranges, blanks left out', () => {
    expect(
      callFunction(sum, [
        1,
        [
          [2, null],
          ['3 L/s', 4],
        ],
        null,
      ]),
    ).toEqual({ ok: true, value: 14 });
  });

  it('are needed once at least', () => {
    expect(callFunction(sum, [])).toMatchObject({ ok: false, message: expect.stringContaining('Values is blank') });
    expect(callFunction(sum, [null, ''])).toMatchObject({ ok: false });
    expect(callFunction(sum, [1, [[null]]])).toEqual({ ok: true, value: 2 });
  });

  it('of any kind keep their places', () => {
    const any = made({ all: optional(repeating(anyRange(''))) }, ({ all }) => JSON.stringify(all), {
      kind: 'text',
      description: '',
    });
    expect(callFunction(any, [1, null, [[2], [3]]])).toEqual({ ok: true, value: '[1,null,[[2],[3]]]' });
    expect(callFunction(any, [])).toEqual({ ok: true, value: '[]' });
  });
});

describe('a single-cell argument given a range', () => {
  it('is worked out element by element, rows against columns', () => {
    expect(callFunction(area, [[[1], [2]], [[1, 10, 100]]])).toEqual({
      ok: true,
      value: [
        [1000, 10000, 100000],
        [2000, 20000, 200000],
      ],
    });
  });

  it('keeps errors in their elements, with the words of the first', () => {
    const outcome = callFunction(area, [[[1], [0], ['wide'], [null], [{ error: '#N/A' }]], 1]);
    expect(outcome).toMatchObject({
      ok: true,
      value: [
        [1000],
        [{ error: '#VALUE!', message: 'Bore is 0 mm: it must be above 0 mm.' }],
        [{ error: '#VALUE!' }],
        [{ error: '#VALUE!' }],
        [{ error: '#N/A' }],
      ],
      firstFault: { code: '#VALUE!', message: 'Bore is 0 mm: it must be above 0 mm.' },
    });
  });

  it('of another size gives #N/A where one ends', () => {
    expect(
      callFunction(area, [
        [[1], [2], [3]],
        [[1], [2]],
      ]),
    ).toMatchObject({ value: [[1000], [4000], [{ error: '#N/A' }]] });
  });

  it('reads the other arguments once', () => {
    let reads = 0;
    const counting = { ...optional(number('')), takesRange: true, read: () => ++reads };
    callFunction(
      made({ one: number(''), table: counting }, ({ one }) => one),
      [[[1], [2], [3]], [['x']]],
    );
    expect(reads).toBe(1);
  });

  it('is refused for a function that gives a table', () => {
    const table = made({ one: number('') }, () => [[1]], { kind: 'table', description: '' });
    expect(callFunction(table, [[[1], [2]]])).toMatchObject({
      ok: false,
      message: expect.stringContaining('gives a table'),
    });
  });

  it('of a million cells is refused at once', () => {
    const huge = Array.from({ length: 1_048_576 }, () => [1]);
    let calls = 0;
    const counted = made({ one: number('') }, () => ++calls);
    expect(callFunction(counted, [huge])).toMatchObject({ ok: false, message: expect.stringContaining('1048576') });
    expect(calls).toBe(0);
  });
});

describe('kinds of parameter', () => {
  it('take a choice whatever its case, and list the choices otherwise', () => {
    const fn = made({ kind: choice(['Kv', 'critical ratio'], '') }, ({ kind }) => kind, {
      kind: 'text',
      description: '',
    });
    expect(callFunction(fn, ['CRITICAL-RATIO'])).toEqual({ ok: true, value: 'critical ratio' });
    expect(callFunction(fn, ['Cx'])).toMatchObject({
      ok: false,
      message: expect.stringContaining('Kv, critical ratio'),
    });
    expect(callFunction(fn, [5])).toMatchObject({ ok: false, code: '#VALUE!' });
  });

  it('take a number for text, but no boolean', () => {
    const fn = made({ size: text('') }, ({ size }) => size, { kind: 'text', description: '' });
    expect(callFunction(fn, [10])).toEqual({ ok: true, value: '10' });
    expect(callFunction(fn, [true])).toMatchObject({ ok: false });
  });

  it('refuse a single cell for a table', () => {
    const fn = made({ parts: partsTable() }, () => 1);
    for (const raw of [5, 'Parts', true, [['Parts']]])
      expect(callFunction(fn, [raw])).toMatchObject({ ok: false, code: '#VALUE!' });
    expect(callFunction(fn, [{ error: '#REF!' }])).toMatchObject({
      ok: false,
      message: expect.stringContaining('#REF!'),
    });
  });

  it('give the same parts to every call with the same cells', () => {
    const seen = new Set<unknown>();
    const fn = made({ parts: partsTable() }, ({ parts }) => seen.add(parts).size);
    const cells = () => [
      ['Rig', 'Kind', 'Speed'],
      ['A', 'pump', 2],
    ];
    callFunction(fn, [cells()]);
    expect(callFunction(fn, [cells()])).toEqual({ ok: true, value: 1 });
  });

  it('raise the place within a table', () => {
    const fn = made({ parts: partsTable() }, () => raise({ kind: 'missing', argument: 'x' }));
    expect(
      callFunction(fn, [
        [
          ['Rig', 'Kind', 'Speed'],
          ['A', 'pump', 0],
        ],
      ]),
    ).toMatchObject({
      message: expect.stringContaining('Parts, row 2 of the range'),
    });
  });
});
