import type { CellFunction } from '../functions/define.ts';

/**
 * Functions that match every word of `query`, in their group and order. A word matches the name, the group, the summary
 * or an argument's name or description.
 */
export function searchFunctions(functions: readonly CellFunction[], query: string): readonly CellFunction[] {
  const words = query.toLowerCase().replace(/^=/, '').split(/\s+/).filter(Boolean);
  if (words.length === 0) return functions;
  return functions.filter((fn) => {
    const haystack = [
      `narrows.${fn.id}`,
      fn.group,
      fn.summary,
      ...Object.entries(fn.parameters).flatMap(([name, parameter]) => [name, parameter.description]),
    ]
      .join('\n')
      .toLowerCase();
    return words.every((word) => haystack.includes(word));
  });
}

/** Groups in the order in which they first appear. */
export function byGroup(functions: readonly CellFunction[]): ReadonlyMap<string, readonly CellFunction[]> {
  const groups = new Map<string, CellFunction[]>();
  for (const fn of functions) {
    const group = groups.get(fn.group);
    if (group) group.push(fn);
    else groups.set(fn.group, [fn]);
  }
  return groups;
}
