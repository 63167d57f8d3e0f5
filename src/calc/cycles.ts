/**
 * Circles in a directed graph, without recursion, so that chains of any length are safe (Tarjan's strongly connected
 * components). Returns each component that has more than one node, or one node that points at itself, as a closed walk
 * is found in it: nodes in the order in which they point at each other, the first one not repeated.
 */
export function circles(nodes: Iterable<number>, next: (node: number) => Iterable<number>): Circle[] {
  const order = new Map<number, number>();
  const low = new Map<number, number>();
  const open = new Set<number>();
  const stack: number[] = [];
  const found: Circle[] = [];
  const edges = new Map<number, readonly number[]>();
  const edgesOf = (node: number): readonly number[] => {
    let held = edges.get(node);
    if (!held) {
      held = [...next(node)];
      edges.set(node, held);
    }
    return held;
  };

  for (const start of nodes) {
    if (order.has(start)) continue;
    const work: { node: number; at: number }[] = [{ node: start, at: 0 }];
    while (work.length > 0) {
      const top = work[work.length - 1];
      if (!top) break;
      const { node } = top;
      if (top.at === 0 && !order.has(node)) {
        order.set(node, order.size);
        low.set(node, order.get(node) ?? 0);
        stack.push(node);
        open.add(node);
      }
      const target = edgesOf(node)[top.at++];
      if (target !== undefined) {
        if (!order.has(target)) work.push({ node: target, at: 0 });
        else if (open.has(target)) low.set(node, Math.min(low.get(node) ?? 0, order.get(target) ?? 0));
        continue;
      }
      work.pop();
      const parent = work[work.length - 1];
      if (parent) low.set(parent.node, Math.min(low.get(parent.node) ?? 0, low.get(node) ?? 0));
      if (low.get(node) !== order.get(node)) continue;
      const members = new Set<number>();
      for (let member = stack.pop(); member !== undefined; member = stack.pop()) {
        open.delete(member);
        members.add(member);
        if (member === node) break;
      }
      if (members.size > 1 || edgesOf(node).includes(node)) found.push({ members, walk: walkIn(members, edgesOf) });
    }
  }
  return found;
}

export interface Circle {
  readonly members: ReadonlySet<number>;
  /** one closed walk among the members */
  readonly walk: readonly number[];
}

/** The shortest closed walk through one member of a component. */
function walkIn(members: ReadonlySet<number>, edgesOf: (node: number) => readonly number[]): number[] {
  const start = Math.min(...members);
  const from = new Map<number, number>();
  let layer = [start];
  while (layer.length > 0) {
    const following: number[] = [];
    for (const node of layer) {
      for (const target of edgesOf(node)) {
        if (target === start) return trace(from, start, node);
        if (!members.has(target) || from.has(target)) continue;
        from.set(target, node);
        following.push(target);
      }
    }
    layer = following;
  }
  return [start];
}

function trace(from: ReadonlyMap<number, number>, start: number, end: number): number[] {
  const walk = [end];
  for (let node = end; node !== start; ) {
    node = from.get(node) ?? start;
    walk.push(node);
  }
  return walk.reverse();
}
