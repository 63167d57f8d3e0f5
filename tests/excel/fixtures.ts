import { type CellFunction, defineFunction, type Parameter, type ParameterKind } from '../../src/functions/define.ts';

function parameter(
  kind: ParameterKind,
  description: string,
  more: Partial<Parameter<unknown>> = {},
): Parameter<unknown> {
  return {
    kind,
    description,
    optional: false,
    repeating: false,
    takesRange: kind === 'table' || kind === 'conditions' || kind === 'list',
    read: (raw) => raw,
    ...more,
  };
}

/** One function of each shape that the registry may hold: scalars, tables, optional and repeating arguments. */
export const SHAPES: readonly CellFunction[] = [
  defineFunction({
    id: 'SHAPE.SCALAR',
    group: 'Look-up',
    summary: 'A number from numbers.',
    parameters: {
      bore: parameter('quantity', 'inside diameter', { quantity: 'length', unit: 'mm' }),
      standard: parameter('choice', 'which standard', { optional: true, choices: ['a', 'b'] }),
    },
    result: { kind: 'number', unit: 'mm', description: 'the bore' },
    examples: [],
    body: () => 1,
  }),
  defineFunction({
    id: 'SHAPE.TABLE',
    group: 'Rig',
    summary: 'A table from a table.',
    parameters: {
      parts: parameter('table', 'rows of parts', { table: 'parts' }),
      rig: parameter('text', 'name of the rig'),
      conditions: parameter('conditions', 'name, value, unit', { optional: true }),
    },
    result: { kind: 'table', description: 'one row a part' },
    examples: [],
    body: () => [['Part'], ['hose']],
  }),
  defineFunction({
    id: 'SHAPE.MANY',
    group: 'Passages',
    summary: 'Any number of values.',
    parameters: {
      name: parameter('text', 'name of the function'),
      values: parameter('any', 'the values', { repeating: true, takesRange: true, optional: true }),
    },
    result: { kind: 'text', description: 'words' },
    examples: [],
    body: () => 'words',
  }),
  defineFunction({
    id: 'NUL',
    group: 'Words',
    summary: 'Takes nothing.',
    parameters: {},
    result: { kind: 'table', description: 'a table' },
    examples: [],
    body: () => [['x']],
  }),
];
