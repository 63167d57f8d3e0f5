import type { CellFunction, Parameter } from '../../../functions/define.ts';

export interface FunctionParameter {
  readonly name: string;
  readonly description: string;
  readonly type: 'any';
  readonly dimensionality: 'scalar' | 'matrix';
  readonly optional?: true;
  readonly repeating?: true;
}

export interface FunctionMetadata {
  readonly id: string;
  readonly name: string;
  readonly description: string;
  readonly helpUrl: string;
  /** The cell's address comes with each call: the words of its error are kept by it. */
  readonly options: { readonly requiresAddress: true };
  readonly parameters: readonly FunctionParameter[];
  readonly result: { readonly type: 'any'; readonly dimensionality: 'scalar' | 'matrix' };
}

export interface FunctionsJson {
  /** Error values in arguments reach the functions, which name the argument that holds one; otherwise Excel answers. */
  readonly allowErrorForDataTypeAny: true;
  readonly functions: readonly FunctionMetadata[];
}

/**
 * What Excel is told of the functions. Every argument is of type `any`: a quantity is a number or text with a unit, and
 * only `any` lets error values through to be named.
 * @param functions the registry
 * @param address where the add-in is served, for the help addresses
 */
export function functionsJson(functions: readonly CellFunction[], address: string): FunctionsJson {
  return {
    allowErrorForDataTypeAny: true,
    functions: functions.map((entry) => ({
      id: entry.id,
      name: entry.id,
      description: entry.summary,
      helpUrl: `${address.replace(/\/+$/, '')}/docs/reference/${entry.id}.html`,
      options: { requiresAddress: true },
      parameters: Object.entries(entry.parameters).map(([name, parameter]) => describe(name, parameter)),
      result: { type: 'any', dimensionality: entry.result.kind === 'table' ? 'matrix' : 'scalar' },
    })),
  };
}

/** Longest list of allowed words that an argument's help takes in whole. */
const MOST_LISTED = 160;

/**
 * Help on an argument. Excel's enumerations are for arguments of one type, text or number, while ours take ranges and
 * errors too: the allowed words stand in the help.
 */
export function parameterHelp({ description, choices = [] }: Parameter<unknown>): string {
  if (choices.length === 0 || choices.every((choice) => description.includes(choice))) return description;
  const all = choices.join(', ');
  if (all.length <= MOST_LISTED) return `${description}. One of: ${all}`;
  return `${description}. Such as: ${choices.slice(0, 5).join(', ')}`;
}

function describe(name: string, parameter: Parameter<unknown>): FunctionParameter {
  return {
    name,
    description: parameterHelp(parameter),
    type: 'any',
    dimensionality: parameter.takesRange ? 'matrix' : 'scalar',
    ...(parameter.optional ? { optional: true } : {}),
    ...(parameter.repeating ? { repeating: true } : {}),
  };
}
