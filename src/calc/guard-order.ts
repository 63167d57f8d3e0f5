import { circles } from './cycles.ts';
import { cellName } from './formula-text.ts';
import { anchorOf, placeOnly } from './guard-references.ts';
import { type Cycles, placeKey } from './guard-results.ts';
import {
  type AstNode,
  type CalculateSeam,
  type CellRectangle,
  type CurrentConfigSeam,
  FUNCTION_NODE,
  type GeneratorSeam,
  isReference,
  type NodeValue,
  REFERENCE_NODE,
  type RuntimeSeam,
  type SheetRectangle,
  type Tree,
  UNION_NODE,
} from './seams.ts';
import type { SheetNames } from './sheet-names.ts';
import type { SpillRoom } from './spill-room.ts';
import type { Injector, UniverModules } from './univer.ts';
import { cycleWords } from './words.ts';

/** Passes over a sheet until no spilled range changes its size any more. Each pass settles one more link of a chain. */
const MOST_PASSES = 64;
/** Cells of a circle that are named in words. */
const MOST_NAMED = 8;

const sameRange = (a: CellRectangle, b: CellRectangle): boolean =>
  a.startRow === b.startRow && a.startColumn === b.startColumn && a.endRow === b.endRow && a.endColumn === b.endColumn;

/** The cells of a range without its first one, as up to two rectangles. */
function withoutFirst(range: CellRectangle): CellRectangle[] {
  const { startRow, startColumn, endRow, endColumn } = range;
  const parts: CellRectangle[] = [];
  if (endColumn > startColumn) parts.push({ startRow, startColumn: startColumn + 1, endRow: startRow, endColumn });
  if (endRow > startRow) parts.push({ startRow: startRow + 1, startColumn, endRow, endColumn });
  return parts;
}

interface ConfigInside extends CurrentConfigSeam {
  _forceCalculate: boolean;
}

interface GeneratorInside extends GeneratorSeam {
  _executeNode(node: AstNode, x?: number, y?: number): Promise<NodeValue>;
}

/**
 * The order of calculation. The engine orders cells by the formula cells that they read, and knows nothing of the cells
 * that a formula spills into until it has been worked out; it answers circular references with numbers. Here
 * spilled cells count as part of their formula, passes are repeated until every spilled range has the size that the
 * order was made for, and circles are found and handed on as errors.
 */
export function guardOrder(
  { engine }: UniverModules,
  injector: Injector,
  cycles: Cycles,
  names: SheetNames,
  room: SpillRoom,
  onFailure: (error: unknown) => void,
): void {
  const generator = injector.get(engine.IFormulaDependencyGenerator) as unknown as GeneratorInside;
  const calculate = injector.get(engine.ICalculateFormulaService) as unknown as CalculateSeam;
  const config = injector.get(engine.IFormulaCurrentConfigService) as unknown as ConfigInside;
  const runtime = injector.get(engine.IFormulaRuntimeService) as unknown as RuntimeSeam;
  /** ranges that the order of the pass at hand was made for, by formula cell */
  const assumed = new Map<string, { readonly tree: Tree; readonly area: SheetRectangle }>();
  /** formula cells whose circle rests on a range of an earlier run */
  let suspects: SheetRectangle[] = [];

  /** The cells that a formula fills by the latest result: of this run (`fresh`) or of an earlier one. */
  function filledBy(tree: Tree): { area: SheetRectangle; fresh: boolean } {
    const { unitId, subUnitId: sheetId, row, column } = tree;
    const single = { startRow: row, startColumn: column, endRow: row, endColumn: column };
    const result = runtime.getUnitData()[unitId]?.[sheetId]?.getValue(row, column);
    const ranges = result ? runtime.getUnitArrayFormula() : config.getArrayFormulaRange();
    const blocked = result?.v === '#SPILL!';
    const range = blocked ? single : (ranges[unitId]?.[sheetId]?.[row]?.[column] ?? single);
    return { area: { unitId, sheetId, range }, fresh: result !== null && result !== undefined };
  }

  function spreading(tree: Tree): Tree {
    const own = tree.toRTreeItem.bind(tree);
    tree.toRTreeItem = () => {
      if (tree.featureId != null || tree.formulaId != null) return own();
      const { area } = filledBy(tree);
      return [area];
    };
    return tree;
  }
  const createTree = generator._createFDtree.bind(generator);
  generator._createFDtree = (...args) => spreading(createTree(...args));
  const createVirtual = generator._createVirtualFDtree.bind(generator);
  generator._createVirtualFDtree = (...args) => spreading(createVirtual(...args));

  const traverse = generator._nodeTraversalRef.bind(generator);
  generator._nodeTraversalRef = (node, found) => {
    const children = node.getChildren();
    if (!children.some(asksForPlaceOnly)) return traverse(node, found);
    // the engine's own walk, one child at a time, without the children that only ask where a reference points
    for (const child of children) {
      if (!asksForPlaceOnly(child)) traverse({ getChildren: () => [child] } as unknown as AstNode, found);
    }
  };

  const executeNode = generator._executeNode.bind(generator);
  generator._executeNode = async (node, x, y) => {
    cycles.asking = true;
    const value = await executeNode(node, x, y).finally(() => {
      cycles.asking = false;
    });
    if (isReference(value)) return value;
    const anchor = anchorOf(node);
    return anchor && isReference(anchor) ? anchor : nowhere;
  };

  const nameOf = (tree: Tree): string => `${names(tree.unitId, tree.subUnitId)}!${cellName(tree.row, tree.column)}`;

  generator._checkIsCycleDependency = (trees) => {
    const cellTrees = trees.filter((tree) => tree.featureId == null && tree.formulaId == null);
    const areas = new Map(cellTrees.map((tree) => [tree.treeId, filledBy(tree)]));
    for (const tree of cellTrees) {
      const filled = areas.get(tree.treeId);
      if (filled) assumed.set(placeKey(treePlace(tree)), { tree, area: filled.area });
    }
    const next = (id: number): Iterable<number> => {
      const filled = areas.get(id);
      if (!filled) return [];
      const readers = new Set(generator._dependencyManagerService.searchDependency([filled.area]));
      for (const reader of generator._dependencyRTreeCacheForAddressFunction.bulkSearch([filled.area]))
        readers.add(reader);
      return readers;
    };
    const byId = new Map(cellTrees.map((tree) => [tree.treeId, tree]));
    const circular = new Set<Tree>();
    for (const circle of circles(byId.keys(), next)) {
      const members = [...circle.members].flatMap((id) => byId.get(id) ?? []);
      const restsOnOldRange = members.some((tree) => {
        const filled = areas.get(tree.treeId);
        return filled && !filled.fresh && !sameRange(filled.area.range, cellRange(tree));
      });
      if (restsOnOldRange) {
        suspects.push(...members.flatMap((tree) => areas.get(tree.treeId)?.area ?? []));
        continue;
      }
      const walk = circle.walk.flatMap((id) => byId.get(id) ?? []).map(nameOf);
      const shown = walk.length > MOST_NAMED ? [...walk.slice(0, MOST_NAMED), '…'] : walk;
      const words = cycleWords([...shown, ...walk.slice(0, 1)]);
      for (const tree of members) {
        cycles.words.set(placeKey(treePlace(tree)), words);
        circular.add(tree);
      }
    }
    if (circular.size > 0) errorsFirst(trees, circular);
    return false;
  };

  /** Ranges that came out other than the order of the last pass took them to be. */
  function changedAreas(): SheetRectangle[] {
    const changed: SheetRectangle[] = [];
    for (const { tree, area } of assumed.values()) {
      const { unitId, sheetId, range } = filledBy(tree).area;
      if (sameRange(range, area.range)) continue;
      for (const part of [...withoutFirst(range), ...withoutFirst(area.range)])
        changed.push({ unitId, sheetId, range: part });
    }
    return changed;
  }

  async function passes(): Promise<true | undefined> {
    cycles.words.clear();
    suspects = [];
    assumed.clear();
    if ((await calculate._apply()) == null) return undefined;
    const triedAgain = new Set<string>();
    for (let pass = 1; pass < MOST_PASSES; pass++) {
      let dirty = [...changedAreas(), ...suspects];
      if (dirty.length === 0) {
        dirty = room.waiting().filter(({ unitId, sheetId, range: { startRow: row, startColumn: column } }) => {
          const key = placeKey({ unitId, sheetId, row, column });
          return !triedAgain.has(key) && triedAgain.add(key);
        });
      }
      if (dirty.length === 0) return true;
      suspects = [];
      assumed.clear();
      engine.FORMULA_REF_TO_ARRAY_CACHE.clear();
      config._forceCalculate = false;
      config.loadDirtyRangesAndExcludedCell(dirty, {});
      if ((await calculate._apply(true)) == null) return undefined;
    }
    throw new Error(`spilled ranges still change their size after ${MOST_PASSES} passes`);
  }

  calculate._executeStep = async () => {
    try {
      return await passes();
    } catch (error) {
      onFailure(error);
      return true;
    }
  };
}

const nowhere = {
  isReferenceObject: () => true,
  toUnitRange: () => ({ unitId: '', sheetId: '', range: { startRow: -1, startColumn: -1, endRow: -1, endColumn: -1 } }),
} as unknown as NodeValue;

/**
 * Puts the cells of circles before all others in the order of a run, which is read from its end: they are errors whatever
 * they read, and the engine's order has a cell that reads only itself behind its readers, which would find nothing there.
 */
function errorsFirst(trees: Tree[], circular: ReadonlySet<Tree>): void {
  const others = trees.filter((tree) => !circular.has(tree));
  trees.splice(0, trees.length, ...others, ...circular);
}

function asksForPlaceOnly(node: AstNode): boolean {
  if (node.nodeType !== FUNCTION_NODE || !placeOnly.has(node.getToken().toUpperCase())) return false;
  return node.getChildren().every((child) => child.nodeType === REFERENCE_NODE || child.nodeType === UNION_NODE);
}

const treePlace = (tree: Tree) => ({
  unitId: tree.unitId,
  sheetId: tree.subUnitId,
  row: tree.row,
  column: tree.column,
});
const cellRange = (tree: Tree): CellRectangle => ({
  startRow: tree.row,
  startColumn: tree.column,
  endRow: tree.row,
  endColumn: tree.column,
});
