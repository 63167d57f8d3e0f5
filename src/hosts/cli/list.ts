import type { CellFunction } from '../../functions/define.ts';
import { functions } from '../../functions/index.ts';
import { exitStatus } from './exit.ts';
import { printed } from './printing.ts';

export interface ListOptions {
  readonly json?: boolean;
}

/** `NARROWS.RIG.SPEED(parts, rig, pressure, [conditions])` */
function signature(fn: CellFunction): string {
  const names = Object.entries(fn.parameters).map(([name, parameter]) => {
    const shown = parameter.repeating ? `${name}, …` : name;
    return parameter.optional ? `[${shown}]` : shown;
  });
  return `NARROWS.${fn.id}(${names.join(', ')})`;
}

function record(fn: CellFunction): object {
  return {
    name: `NARROWS.${fn.id}`,
    group: fn.group,
    summary: fn.summary,
    parameters: Object.entries(fn.parameters).map(([name, { kind, description, unit, optional, repeating }]) => ({
      name,
      kind,
      description,
      ...(unit === undefined ? {} : { unit }),
      optional,
      repeating,
    })),
    result: fn.result,
    examples: fn.examples,
  };
}

/** Where the workbooks to begin with are. */
const WORKBOOKS = `Workbooks to begin with, in templates/
  narrows-template.xlsx   a whole project, filled in as an example
  narrows-empty.xlsx      the same without data, for real work
  example-estimator.xlsx, example-engineer.xlsx, example-trainee.xlsx   small ones, one a user
`;

export async function listCommand({ json }: ListOptions): Promise<number> {
  if (json) {
    await printed(`${JSON.stringify(functions.map(record), undefined, 2)}\n`);
    return exitStatus.ok;
  }
  const groups = new Map<string, CellFunction[]>();
  for (const fn of functions) groups.set(fn.group, [...(groups.get(fn.group) ?? []), fn]);
  const blocks = [...groups].map(
    ([group, members]) => `${group}\n${members.map((fn) => `  ${signature(fn)}\n      ${fn.summary}`).join('\n')}\n`,
  );
  await printed(`${blocks.join('\n')}\n${WORKBOOKS}`);
  return exitStatus.ok;
}
