import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { defineFunction } from '../../src/functions/define.ts';
import { functions } from '../../src/functions/index.ts';
import { quantity } from '../../src/functions/parameters.ts';
import { associateAll, excelBody } from '../../src/hosts/excel/associate.ts';
import { functionsJson } from '../../src/hosts/excel/build/functions-json.ts';
import { recall } from '../../src/hosts/excel/messages.ts';
import { createStandIn } from '../../src/hosts/excel/stand-in.ts';
import { toCell } from '../../src/hosts/excel/values.ts';

const THREE = /^#(?:VALUE!|N\/A|NUM!)$/;
const { bodies, runtime } = createStandIn();
associateAll(functions, runtime as never);

/** Calls a function as Excel does: every declared argument filled, omitted ones null, the invocation object last. */
function call(id: string, given: readonly unknown[], address = 'Sheet1!A1'): unknown {
  const entry = functionsJson(functions, 'https://tables.example').functions.find((one) => one.id === id);
  const body = bodies.get(id);
  if (entry === undefined || body === undefined) throw new Error(`${id} is not associated`);
  const filled = entry.parameters.map((parameter, index) => {
    if (parameter.repeating) return given.slice(index);
    return given[index] ?? null;
  });
  return body(...filled, { address });
}

function fault(id: string, given: readonly unknown[], address?: string): { code: string; message: string } {
  try {
    call(id, given, address);
  } catch (error) {
    return error as { code: string; message: string };
  }
  throw new Error(`${id} gave a value`);
}

describe('the functions in Excel', () => {
  it('are associated, every id of the metadata and no other', () => {
    const ids = functionsJson(functions, 'https://tables.example').functions.map((entry) => entry.id);
    expect([...bodies.keys()].sort()).toEqual([...ids].sort());
    expect(ids.length).toBeGreaterThan(8);
  });

  it('answer without arguments in a value or in one of our three errors, never in an exception', () => {
    for (const id of bodies.keys()) {
      try {
        expect(call(id, [])).toBeDefined();
      } catch (error) {
        expect(error, id).toBeInstanceOf(runtime.Error);
        expect((error as { code: string }).code, id).toMatch(THREE);
      }
    }
  });

  it('answer whatever Excel may hand over in a value or in one of our three errors', () => {
    const cell = fc.oneof(
      fc.constant(null),
      fc.constant(''),
      fc.boolean(),
      fc.double(),
      fc.constantFrom('air', '3/8 in', '-1 Pa', 'Rig', 'constructor', '__proto__', '=1+1'),
      fc.string({ maxLength: 12 }),
      fc.constant(new runtime.Error(runtime.ErrorCode.notAvailable)),
      fc.record({ type: fc.constantFrom('Entity', 'Error', 'FormattedNumber'), basicValue: fc.anything() }),
    );
    const range = fc.array(fc.array(cell, { maxLength: 4 }), { maxLength: 4 });
    const argument = fc.oneof(cell, range);
    for (const id of bodies.keys()) {
      fc.assert(
        fc.property(fc.array(argument, { maxLength: 7 }), (given) => {
          try {
            expect(call(id, given)).toBeDefined();
          } catch (error) {
            expect(error, id).toBeInstanceOf(runtime.Error);
            expect((error as { code: string }).code, id).toMatch(THREE);
          }
        }),
        { numRuns: 40 },
      );
    }
  });

  it('take a number in the default unit, text with a unit, and a spelt-out size', () => {
    // 1 in = 25.4 mm exactly (international inch)
    expect(call('CONVERT', [1, 'in', 'mm'])).toBeCloseTo(25.4, 9);
    expect(call('TUBE.BORE', ['3/8 in'])).toBeTypeOf('number');
  });

  it('spill a table as rows of plain cells', () => {
    const rows = call('ABOUT', []) as readonly (readonly unknown[])[];
    expect(Array.isArray(rows)).toBe(true);
    for (const row of rows) for (const cell of row) expect(['string', 'number', 'boolean']).toContain(typeof cell);
  });

  it('say in words what is wrong, and keep the words for the cell until it is right again', () => {
    const { code, message } = fault('CONVERT', [1, 'in', 'nowhere'], "'Pipe runs'!$B$4");
    expect(code).toMatch(/^#/);
    expect(message).toMatch(/nowhere/);
    expect(recall('Pipe runs!B4')).toMatchObject({ code, message });
    call('CONVERT', [1, 'in', 'mm'], "'Pipe runs'!$B$4");
    expect(recall('Pipe runs!B4')).toBeUndefined();
  });

  it('tell the argument that holds an error, whatever form Excel gives the error', () => {
    const divided = new runtime.Error(runtime.ErrorCode.divisionByZero);
    expect(fault('CONVERT', [divided, 'in', 'mm']).message).toMatch(/#DIV\/0!/);
    const typed = { type: 'Error', basicType: 'Error', basicValue: '#REF!' };
    expect(fault('CONVERT', [typed, 'in', 'mm']).message).toMatch(/#REF!/);
  });

  it('pass repeating arguments on, ranges and single cells alike', () => {
    expect(
      call(
        'WHY',
        [[['CONVERT']], [[1]], [['in']], [['mm']]].map((value) => value),
      ),
    ).toBeTypeOf('string');
    expect(call('WHY', ['CONVERT', [[1]], [['in']], [['nowhere']]])).toMatch(/nowhere/);
  });
});

describe('values on their way to and from Excel', () => {
  const entry = defineFunction({
    id: 'SAME',
    group: 'Words',
    summary: 'Gives back what it is given.',
    parameters: { bore: quantity('length', 'mm', 'a length', { above: 0 }) },
    result: { kind: 'table', description: 'rows' },
    examples: [],
    body: () => [
      [1, null],
      ['a', { error: '#NUM!' }],
    ],
  });

  it('leave as blanks and error objects inside a table', () => {
    const rows = excelBody(entry, runtime as never)(5, {}) as unknown[][];
    expect(rows[0]).toEqual([1, '']);
    expect(rows[1]?.[1]).toBeInstanceOf(runtime.Error);
    expect(rows[1]?.[1]).toHaveProperty('code', '#NUM!');
  });

  it('carry no message with #NUM!, which Excel would drop', () => {
    const strict = { ...entry, body: () => Number.POSITIVE_INFINITY };
    expect(() => excelBody(strict, runtime as never)(5, {})).toThrow(runtime.Error as never);
  });

  it('arrive as numbers, text, truth values, blanks or errors', () => {
    expect(toCell(undefined)).toBeNull();
    expect(toCell(null)).toBeNull();
    expect(toCell(3)).toBe(3);
    expect(toCell('3/8 in')).toBe('3/8 in');
    expect(toCell(true)).toBe(true);
    expect(toCell({ type: 'FormattedNumber', basicValue: 2.5, numberFormat: '0.0' })).toBe(2.5);
    expect(toCell({ type: 'Entity', text: 'x' })).toEqual({ error: '#VALUE!' });
    expect(toCell(() => 1)).toEqual({ error: '#VALUE!' });
  });
});
