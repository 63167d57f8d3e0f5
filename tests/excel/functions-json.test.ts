/**
 * The functions' metadata against the published rules (naming page and JSON reference of the platform's custom
 * functions) and against what the platform's own generator emits for the same declarations written as JSDoc.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { generateCustomFunctionsMetadata } from 'custom-functions-metadata';
import { describe, expect, it } from 'vitest';
import type { CellFunction } from '../../src/functions/define.ts';
import { functions } from '../../src/functions/index.ts';
import { type FunctionsJson, functionsJson, parameterHelp } from '../../src/hosts/excel/build/functions-json.ts';
import { SHAPES } from './fixtures.ts';

const ADDRESS = 'https://tables.example/narrows/';

/** Words that TypeScript keeps for itself cannot name a parameter of its functions; an underscore sets them apart. */
const safe = (name: string) => (['function', 'case', 'default', 'in', 'new'].includes(name) ? `${name}_` : name);

/** The declarations as a source file with JSDoc, types by the generator's rules: any[][] is a range, one [] more repeats. */
function asJsdoc(declared: readonly CellFunction[]): string {
  return declared
    .map((entry, index) => {
      const parameters = Object.entries(entry.parameters);
      const types = parameters.map(([name, parameter]) => {
        const range = parameter.takesRange ? '[][]' : '';
        return `${safe(name)}: any${range}${parameter.repeating ? '[]' : ''}`;
      });
      const lines = parameters.map(
        ([name, parameter]) =>
          ` * @param ${parameter.optional ? `[${safe(name)}]` : safe(name)} ${parameterHelp(parameter)}`,
      );
      const result = entry.result.kind === 'table' ? 'any[][]' : 'any';
      return [
        '/**',
        ` * ${entry.summary}`,
        ` * @customfunction ${entry.id} ${entry.id}`,
        ` * @helpurl ${ADDRESS}docs/reference/${entry.id}.html`,
        ' * @requiresAddress',
        ...lines,
        ' */',
        `function f${index}(${[...types, 'invocation: CustomFunctions.Invocation'].join(', ')}): ${result} { return null as never; }`,
      ].join('\n');
    })
    .join('\n\n');
}

interface Loose {
  readonly functions: readonly {
    readonly id: string;
    readonly name: string;
    readonly description?: string;
    readonly helpUrl?: string;
    readonly options?: Record<string, unknown>;
    readonly parameters: readonly {
      readonly name?: unknown;
      readonly optional?: unknown;
      readonly repeating?: unknown;
    }[];
    readonly result?: Record<string, unknown>;
  }[];
}

const DEFAULTS: Readonly<Record<string, unknown>> = { type: 'any', dimensionality: 'scalar' };

/** Documented defaults filled in: type any, dimensionality scalar; a repeating parameter is optional by definition. */
function normal(json: Loose | FunctionsJson): unknown {
  return json.functions.map(({ id, name, description, helpUrl, options, parameters, result }) => ({
    id,
    name,
    description,
    helpUrl,
    options,
    parameters: parameters.map((parameter) => ({
      ...DEFAULTS,
      ...parameter,
      name: String(parameter.name).replace(/_$/, ''),
      optional: Boolean(parameter.optional) || Boolean(parameter.repeating),
    })),
    result: { ...DEFAULTS, ...result },
  }));
}

async function generated(declared: readonly CellFunction[]): Promise<Loose> {
  const folder = mkdtempSync(join(tmpdir(), 'jsdoc-'));
  try {
    const file = join(folder, 'functions.ts');
    writeFileSync(file, asJsdoc(declared));
    const result = await generateCustomFunctionsMetadata(file);
    expect(result.errors).toEqual([]);
    return JSON.parse(result.metadataJson) as Loose;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

describe.each([
  ['functions of every shape', SHAPES],
  ['the registry', functions],
])('metadata of %s', (_, declared) => {
  it('is what the platform’s generator makes of the same declarations', async () => {
    expect(normal(functionsJson(declared, ADDRESS))).toEqual(normal(await generated(declared)));
  });

  it('has ids and names by the naming rules', () => {
    const entries = functionsJson(declared, ADDRESS).functions;
    expect(entries.length).toBeGreaterThan(0);
    expect(new Set(entries.map((entry) => entry.id)).size).toBe(entries.length);
    for (const { id, name } of entries) {
      expect(id).toMatch(/^[A-Z][A-Z0-9._]{2,127}$/);
      expect(name).toBe(id);
      // after the namespace no name may look like a cell address
      expect(name).not.toMatch(/^[A-Z]{1,3}\d+$|^R\d+C\d+$/);
    }
  });

  it('has words for every function and argument, and arguments in an order that Excel takes', () => {
    for (const entry of functionsJson(declared, ADDRESS).functions) {
      expect(entry.description, entry.id).toMatch(/^\S[^\n]*$/);
      expect(URL.canParse(entry.helpUrl)).toBe(true);
      let omittable = false;
      entry.parameters.forEach((parameter, index) => {
        const label = `${entry.id} ${parameter.name}`;
        expect(parameter.name, label).toMatch(/^[a-z][A-Za-z0-9]*$/);
        expect(parameter.description, label).toMatch(/^\S[^\n]*$/);
        expect(['scalar', 'matrix'], label).toContain(parameter.dimensionality);
        if (parameter.repeating) expect(index, label).toBe(entry.parameters.length - 1);
        const optional = parameter.optional === true || parameter.repeating === true;
        if (omittable) expect(optional, `${label}: an argument after an optional one is optional`).toBe(true);
        omittable = optional;
      });
      expect(new Set(entry.parameters.map(({ name }) => name)).size).toBe(entry.parameters.length);
    }
  });
});

describe('metadata as a file', () => {
  it('never makes a function volatile or streaming, and lets errors in arguments through', () => {
    const json = functionsJson(SHAPES, ADDRESS);
    expect(json.allowErrorForDataTypeAny).toBe(true);
    expect(JSON.stringify(json)).not.toMatch(/volatile|stream/);
  });
});
