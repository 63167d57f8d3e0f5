import { keeping } from '../../engine/keep.ts';
import { rigPort } from '../../engine/network/network.ts';
import { type NetworkPullDown, networkPullDown } from '../../engine/network/pulldown.ts';
import { pullDownByRungs } from '../../engine/network/shared-start.ts';
import type { Rig } from '../../engine/rig/rig.ts';
import { at, raise } from '../../faults/issue.ts';
import { placeWords, shortNumber } from '../../faults/words.ts';
import { type Cell, noAnswer } from '../../tables/cells.ts';
import type { PortsTable } from '../../tables/ports.ts';
import type { PartsTable } from '../../tables/rigs.ts';
import { defineFunction } from '../define.ts';
import { DRY_NOTE } from '../evacuation/model-notes.ts';
import { conditions, partsTable, portsTable, runsTable } from '../parameters.ts';
import { pressureColumn, textColumn, timeColumn, volumeColumn } from '../rig/columns.ts';
import { curveOf, loadOf } from '../rig/curves.ts';
import { EXAMPLE_PARTS } from '../rig/example-parts.ts';
import { CLOSENESS, contentOf, type Graph, graphOf, nodeNamed, refuseIslands } from './graph.ts';

const columns = [
  textColumn('Node'),
  volumeColumn('Volume'),
  timeColumn('Time to target'),
  pressureColumn('Pressure at gauge target'),
  textColumn('Note'),
] as const;

/** Pull-downs by all that they depend on: a change elsewhere in the parts table costs nothing here. */
const MOST_KEPT = 64;
const keep = keeping<NetworkPullDown>(MOST_KEPT);

const WHOLE = 'whole network';
const GRAMS_PER_KG = 1e3;

interface RigAt {
  readonly node: number;
  readonly rig: Rig;
}

/** The rigs at their nodes, checked: known nodes, known rigs, no node twice, no island. */
function portsOf({ ports }: PortsTable, parts: PartsTable, graph: Graph): RigAt[] {
  const found = ports.map(({ node: name, rig, row }) => {
    const node = at({ table: 'ports', row, column: 'Node' }, () => nodeNamed(graph, name));
    const known = at({ table: 'ports', row, column: 'Rig' }, () => parts.rig(rig));
    return { row, node, rig: known };
  });
  const taken = new Set<number>();
  for (const { row, node } of found) {
    if (taken.has(node))
      raise(
        {
          kind: 'wrong',
          argument: 'Node',
          found: `"${graph.names[node]}", which is one node and has a rig already`,
          allowed: 'one rig at a node',
          todo: 'Connect the second rig at another node.',
        },
        { table: 'ports', row, column: 'Node' },
      );
    taken.add(node);
  }
  refuseIslands(graph, [...taken]);
  return found;
}

export const evacNetwork = defineFunction({
  id: 'EVAC.NETWORK',
  group: 'Evacuation',
  summary:
    'Pull-down of long lines: minutes to target at each node, and what each reads when the gauge at the port shows target.',
  parameters: {
    runs: runsTable(
      'range with a header row: one row a length of pipe with its nodes From and To, or a component at From',
    ),
    ports: portsTable(),
    parts: partsTable(),
    conditions: conditions(),
  },
  result: {
    kind: 'table',
    columns,
    description:
      'one row a node in the order of the runs, then one for the whole: its volume, its slowest point, its highest pressure',
  },
  examples: [
    {
      formula: `=NARROWS.EVAC.NETWORK({"Size","Length (m)","From","To","Component","Volume (L)";"5/8 in",40,"plant","roof","","";"","","roof","","coil",3},{"Node","Rig";"plant","wide"},${EXAMPLE_PARTS})`,
      shows: 'how far the coil on the roof lags behind the gauge at the plant, at the end of 40 m of pipe',
    },
  ],
  notes: [
    'Along each line A dp/dt = d/dx(K(p) dp/dx), with K from the flow of the kinetic equation (molecular to laminar); early in the pull-down turbulence, inertia and choking bound the flow as in TUBE.FLOW. Each rig draws what it draws at the pressure of its node.',
    'Every row needs From and To; a component needs one of them, the node at which it stands. A component with both, or a pipe of length 0, makes its two nodes one. Loops are allowed. All rows make one network, whatever their Unit.',
    'Each row of ports is a rig of its own, even where two name the same rig. The gauge stands at the node of the first port.',
    'Volume is that of the components at the node and half of each pipe that ends there. The last row counts every point of every pipe, not the nodes alone.',
    'Leak and Outgassing of the conditions count for the whole network and are spread over it by volume.',
    'Bends and joints cost nothing here: add their equivalent length to the pipe. Pipes are as smooth as drawn copper. Pressure waves, which die within seconds, are left out.',
    'The grid (some 120 segments, 2 to 40 a pipe, twice as many with several ports or a loop) and the time steps leave about 0.1 % in the time of the last place, up to 0.3 % in the time at a port and in the pressure at gauge target. Where a port at the end of one very long thin line starts within some twenty times the target, its time may be 2 % too short, and by more where it is below three seconds (up to 0.3 s).',
    DRY_NOTE,
  ],
  sources: [
    'Gas balance of a line with local throughput (vacuum textbooks: Jousten; O Hanlon), flow by Sharipov and Seleznev (1998) and Churchill (1977).',
  ],
  body: ({ runs, ports, parts, conditions }) => {
    const { gas, startPressure, target, water } = conditions;
    const graph = graphOf(runs, gas);
    const rigs = portsOf(ports, parts, graph);
    const { names, volumes, lines } = graph;
    if (lines.length === 0 && volumes.every((volume) => volume === 0))
      raise({ kind: 'limit', argument: 'Volume of the runs', value: 0, rule: 'above', limit: 0, unit: 'm3' });
    const load = loadOf(conditions);
    const key = JSON.stringify([contentOf(runs.runs), rigs.map(({ node, rig }) => [node, rig]), gas, target, load]);
    const pull = pullDownByRungs(startPressure, target, load, (from) =>
      keep(`${from} ${key}`, () => {
        const network = { volumes, lines, ports: rigs.map(({ node, rig }) => rigPort(node, curveOf(rig, gas))) };
        return networkPullDown(network, from, target, load, CLOSENESS);
      }),
    );

    const never = noAnswer(
      `does not get below ${shortNumber(pull.highest)} Pa everywhere within a year: the gas load or the lines hold it above the target`,
    );
    const time = (seconds: number): Cell => (Number.isFinite(seconds) ? seconds : never);
    const pressure = (pa: number): Cell =>
      Number.isNaN(pa) ? noAnswer('the gauge at the first port never shows the target') : pa;
    const noteOf = (node: number): string =>
      rigs.flatMap((port, i) => (port.node === node ? [`port, rig ${ports.ports[i]?.rig ?? ''}`] : [])).join();
    const rows = names.map((name, node): Cell[] => [
      name,
      pull.volumes[node],
      time(pull.times[node] ?? Number.POSITIVE_INFINITY),
      pressure(pull.atGauge[node] ?? Number.NaN),
      noteOf(node),
    ]);
    const { slowestAt } = pull;
    const last =
      'node' in slowestAt
        ? `last: ${names[slowestAt.node] ?? ''}`
        : `last: the pipe of ${placeWords({ table: 'runs', row: graph.lineRows[slowestAt.line] ?? 1 })}, ${Math.round(100 * slowestAt.along)} % along`;
    const dry =
      water > 0
        ? `; dry only: the ${shortNumber(water * GRAMS_PER_KG)} g of water must boil off first, which takes longer`
        : '';
    rows.push([WHOLE, pull.volume, time(pull.slowest), pressure(pull.highestAtGauge), last + dry]);
    return { columns, rows };
  },
});
