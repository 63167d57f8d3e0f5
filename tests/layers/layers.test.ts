import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { allImports, importsOf, wrongImport } from './imports.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));

describe('layers', () => {
  it('are kept by every import under src and templates', () => {
    const imports = allImports(root, ['src', 'templates']);
    expect(imports.length).toBeGreaterThan(50);
    expect(imports.flatMap((one) => wrongImport(one) ?? [])).toEqual([]);
  });

  const wrong: readonly (readonly [string, string])[] = [
    ['src/engine/flow/tube.ts', "import { toSI } from '../../units/quantity.ts';"],
    ['src/engine/flow/tube.ts', "import type { Cell } from '../../tables/cells.ts';"],
    ['src/faults/words.ts', "export * from '../numerics/roots.ts';"],
    ['src/units/quantity.ts', "const later = await import('../tables/table.ts');"],
    ['src/functions/look-up/gas.ts', "import { grid } from '../../calc/grid.ts';"],
    ['src/functions/look-up/gas.ts', "import { LocaleType } from '@univerjs/core';"],
    ['src/pane/pane.ts', "import { start } from '../hosts/sheet/start.ts';"],
    ['src/hosts/cli/fill.ts', "import { start } from '../sheet/start.ts';"],
    ['src/calc/grid.ts', "import { draw } from '../pane/pane.ts';"],
    ['src/tables/rigs.ts', "import { build } from '../../templates/build.ts';"],
    ['src/tables/rigs.ts', "import { odd } from '../odd/odd.ts';"],
    ['templates/build.ts', "import { start } from '../src/hosts/sheet/start.ts';"],
  ];
  it.each(wrong)('%s may not hold %s', (file, text) => {
    expect(importsOf(file, text).flatMap((one) => wrongImport(one) ?? [])).toHaveLength(1);
  });

  it('let a layer use itself and those before it', () => {
    const text = "import { a } from './b.ts'; import { raise } from '../../faults/issue.ts';";
    expect(importsOf('src/engine/flow/tube.ts', text).flatMap((one) => wrongImport(one) ?? [])).toEqual([]);
  });
});
