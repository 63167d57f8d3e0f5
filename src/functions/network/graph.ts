import type { GasState } from '../../engine/gas/state.ts';
import { keeping } from '../../engine/keep.ts';
import type { LineLaw } from '../../engine/network/law.ts';
import type { Line } from '../../engine/network/network.ts';
import type { NetworkOptions } from '../../engine/network/pulldown.ts';
import { tubeLaw } from '../../engine/network/tube-law.ts';
import { raise } from '../../faults/issue.ts';
import { nodeKey } from '../../tables/ports.ts';
import type { Run } from '../../tables/runs.ts';

/** Lines of one network. More than this is a whole project given by mistake. */
export const MOST_LINES = 2000;

/** How closely networks are worked out for cells: the times are within 1e-3, mostly 2e-4, of those of fine steps on a fine grid. */
export const CLOSENESS: NetworkOptions = { refine: 0.4, relative: 2e-4 };

/** Laws of pipes that are kept: each tabulates its friction. */
const MOST_LAWS = 256;
const keepLaw = keeping<LineLaw>(MOST_LAWS);

function lawOf(gas: GasState, bore: number): LineLaw {
  const key = `${bore} ${gas.temperature} ${gas.molarMass} ${gas.viscosity}`;
  return keepLaw(key, () => tubeLaw(gas, bore));
}

/** The runs as a graph. SI. */
export interface Graph {
  /** names of each node as first written; those that nothing narrows from each other are one node */
  readonly names: readonly string[];
  /** m3, components at the node */
  readonly volumes: readonly number[];
  readonly lines: readonly Line[];
  /** row of the runs table for each line */
  readonly lineRows: readonly number[];
  /** first row of the runs table in which a node stands */
  readonly nodeRows: readonly number[];
  nodeOf(name: string): number | undefined;
}

/** All of the runs that a network depends on, for the key of what is kept. */
export function contentOf(runs: readonly Run[]): readonly (readonly unknown[])[] {
  return runs.map(({ bore, length, count, volume, isComponent, from, to }) =>
    isComponent ? [volume, count > 0, from, to] : [bore, length, count, from, to],
  );
}

/** The two nodes of a row; a component may have one. */
function endsOf(run: Run): readonly [string, string] {
  const place = (column: string) => ({ table: 'runs', row: run.row, column });
  const from = run.from ?? (run.isComponent ? run.to : undefined);
  if (from === undefined) return raise({ kind: 'missing', argument: 'From' }, place('From'));
  const to = run.to ?? (run.isComponent ? from : undefined);
  if (to === undefined) return raise({ kind: 'missing', argument: 'To' }, place('To'));
  if (!run.isComponent && nodeKey(from) === nodeKey(to))
    raise(
      {
        kind: 'wrong',
        argument: 'To',
        found: `"${to}", where the pipe also begins`,
        allowed: 'another node than From',
        todo: 'Name the node at its other end.',
      },
      place('To'),
    );
  return [from, to];
}

/**
 * Nodes and lines of a runs table. A component stands at its node; one with From and To, or a pipe without length, makes
 * its two nodes one. Rows of count 0 are left out.
 *
 * @throws missing for a row without From or To; wrong for a pipe from a node to itself; too-many-rows
 */
export function graphOf({ runs }: { readonly runs: readonly Run[] }, gas: GasState): Graph {
  const kept = runs.filter((run) => run.count > 0);
  if (kept.length > MOST_LINES)
    raise({ kind: 'too-many-rows', table: 'runs', rows: kept.length, limit: MOST_LINES }, { table: 'runs' });
  const indices = new Map<string, number>();
  const written: { name: string; row: number }[] = [];
  const above: number[] = [];
  const indexOf = (name: string, row: number): number => {
    const key = nodeKey(name);
    const known = indices.get(key);
    if (known !== undefined) return known;
    indices.set(key, written.length);
    above.push(written.length);
    return written.push({ name, row }) - 1;
  };
  const rootOf = (index: number): number => {
    let root = index;
    while ((above[root] ?? root) !== root) root = above[root] ?? root;
    above[index] = root;
    return root;
  };
  const rows = kept.map((run) => {
    const [from, to] = endsOf(run);
    const ends = [indexOf(from, run.row), indexOf(to, run.row)] as const;
    if (run.isComponent || run.length === 0) {
      const [a, b] = [rootOf(ends[0]), rootOf(ends[1])];
      above[Math.max(a, b)] = Math.min(a, b);
    }
    return { run, ends };
  });

  const places = new Map<number, number>();
  const names: string[] = [];
  const nodeRows: number[] = [];
  const nodes = written.map(({ name, row }, index) => {
    const root = rootOf(index);
    const known = places.get(root);
    if (known !== undefined) {
      names[known] = `${names[known]} = ${name}`;
      return known;
    }
    places.set(root, names.length);
    nodeRows.push(row);
    return names.push(name) - 1;
  });
  const node = (index: number): number => nodes[index] ?? 0;

  const volumes = names.map(() => 0);
  const lines: Line[] = [];
  const lineRows: number[] = [];
  for (const { run, ends } of rows) {
    const [from, to] = [node(ends[0]), node(ends[1])];
    if (run.isComponent || run.length === 0) volumes[from] = (volumes[from] ?? 0) + run.volume;
    else if (from === to) {
      // both ends are one node by a component that joins them: the pipe holds gas and lets nothing through
      volumes[from] = (volumes[from] ?? 0) + run.volume;
    } else {
      lines.push({ from, to, length: run.length, count: run.count, law: lawOf(gas, run.bore) });
      lineRows.push(run.row);
    }
  }
  return {
    names,
    volumes,
    lines,
    lineRows,
    nodeRows,
    nodeOf(name) {
      const index = indices.get(nodeKey(name));
      return index === undefined ? undefined : node(index);
    },
  };
}

const MOST_NAMED = 5;

function quoted(names: readonly string[]): string {
  const shown = names.slice(0, MOST_NAMED).map((name) => `"${name}"`);
  const more = names.length - shown.length;
  return more > 0 ? `${shown.join(', ')} and ${more} more` : shown.join(', ');
}

/** The node of a name, or the fault of a name that the runs do not have. */
export function nodeNamed(graph: Graph, name: string): number {
  return graph.nodeOf(name) ?? raise({ kind: 'unknown', what: 'node of the runs', value: name, known: graph.names });
}

/** @throws wrong where a node has no way of lines to any of `ports` */
export function refuseIslands(graph: Graph, ports: readonly number[]): void {
  const apart = islands(graph, ports);
  const [first] = apart;
  if (first !== undefined)
    raise(
      {
        kind: 'wrong',
        argument: `the way to a port from ${quoted(apart.map((node) => graph.names[node] ?? ''))}`,
        found: 'missing',
        allowed: 'a network in which pipes join every node to a port',
        todo: 'Add the pipe that is missing, check the spelling of From and To, or connect a rig there.',
      },
      { table: 'runs', row: graph.nodeRows[first] ?? 1 },
    );
}

/** Nodes that no way of lines joins to one of `ports`. */
function islands({ names, lines }: Graph, ports: readonly number[]): number[] {
  const near: number[][] = names.map(() => []);
  for (const { from, to } of lines) {
    near[from]?.push(to);
    near[to]?.push(from);
  }
  const reached = new Set(ports);
  const open = [...reached];
  for (let at = open.pop(); at !== undefined; at = open.pop())
    for (const next of near[at] ?? [])
      if (!reached.has(next)) {
        reached.add(next);
        open.push(next);
      }
  return names.map((_, i) => i).filter((i) => !reached.has(i));
}
