import type { SpillColumn } from '../../tables/spill.ts';
import { type CellFunction, defineFunction } from '../define.ts';
import type { Registry } from '../registry.ts';
import { VERSION } from '../version.ts';

const COLUMNS: readonly SpillColumn[] = [{ name: 'Item' }, { name: 'Value' }];

/** `registry` is asked when the function is called, since the function is itself a part of it. */
export function aboutFunction(registry: () => Registry): CellFunction {
  return defineFunction({
    id: 'ABOUT',
    group: 'Words',
    summary: 'Gives the version and the sources of data and methods.',
    parameters: {},
    result: {
      kind: 'table',
      columns: COLUMNS,
      description: 'version, number of functions, and the sources of each function',
    },
    examples: [{ formula: '=NARROWS.ABOUT()', shows: 'version, number of functions, sources' }],
    body: () => {
      const { functions } = registry();
      return {
        columns: COLUMNS,
        rows: [
          ['Narrows', `version ${VERSION}`],
          ['Functions', functions.length],
          ['Limits', 'estimates for planning: local codes, instructions and licensed practice come first'],
          ...functions.flatMap((fn) => (fn.sources ?? []).map((source) => [`Source for ${fn.id}`, source])),
        ],
      };
    },
  });
}
