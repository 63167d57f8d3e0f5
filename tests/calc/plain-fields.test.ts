import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import plainFields from '../../src/calc/plain-fields.js';

const HELPER = 'function _defineProperty(o, name, value) { return Object.defineProperty(o, name, { value }), o; }';

/** The module's class `One`, made anew. */
function made(source: string): object {
  const One = new Function(`${HELPER}\n${source}\nreturn One;`)() as new () => object;
  return new One();
}

describe('the build step that sets fields by name', () => {
  it('leaves every field with its value, in order, also where one statement sets several', () => {
    const source = [
      'class One {',
      '\tconstructor() {',
      '\t\t_defineProperty(this, "a", 1), _defineProperty(this, "b", [2, (3)]);',
      '\t\t_defineProperty(this, "c", void 0);',
      '\t\t_defineProperty(this, "d", () => this.a);',
      '\t}',
      '}',
    ].join('\n');
    const plain = plainFields(source);
    expect(plain).not.toContain('_defineProperty(this');
    const one = made(plain) as { d(): number };
    expect(Object.entries(one).map(([name]) => name)).toEqual(['a', 'b', 'c', 'd']);
    expect(one).toMatchObject({ a: 1, b: [2, 3], c: undefined });
    expect(one.d()).toBe(1);
  });

  it('leaves a field whose name is an accessor to the helper: setting it would do nothing, or throw', () => {
    const source = [
      'class Base {',
      '\tget a() { return "inherited"; }',
      '}',
      'class One extends Base {',
      '\tconstructor() {',
      '\t\tsuper();',
      '\t\t_defineProperty(this, "a", 1);',
      '\t}',
      '}',
    ].join('\n');
    expect(plainFields(source)).toBe(source);
    expect(made(`"use strict";\n${plainFields(source)}`)).toMatchObject({ a: 1 });
  });

  it('does so for the engine as shipped: a thousand fields and more, and none that is an accessor there', () => {
    const path = fileURLToPath(import.meta.resolve('@univerjs/engine-formula'));
    const shipped = readFileSync(path, 'utf8');
    const plain = plainFields(shipped);
    const fields = (source: string): number => source.split('_defineProperty(this, "').length - 1;
    expect(fields(shipped) - fields(plain)).toBeGreaterThan(1000);
    const accessors = new Set([...shipped.matchAll(/^\t(?:static )?[gs]et (\w+)\(/gm)].map(([, name]) => name));
    expect(accessors.size).toBeGreaterThan(10);
    const set = [...plain.matchAll(/void \(this\.(\w+) = /g)].map(([, name]) => name);
    expect(set.filter((name) => accessors.has(name))).toEqual([]);
  });
});
