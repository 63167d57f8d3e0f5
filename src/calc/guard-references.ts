import { cellName } from './formula-text.ts';
import { standNowhere } from './result-places.ts';
import {
  type AstBuilderSeam,
  type AstNode,
  type BaseValueObject,
  type CurrentConfigSeam,
  FUNCTION_NODE,
  isReference,
  type NodeValue,
  PREFIX_NODE,
  REFERENCE_NODE,
  type ReferenceObject,
  type RuntimeSeam,
  SUFFIX_NODE,
} from './seams.ts';
import type { SheetNames } from './sheet-names.ts';
import type { Injector, UniverModules } from './univer.ts';
import { errorValue } from './values.ts';
import { blockedSpillWords, noSpillWords, unknownSheetWords } from './words.ts';

/**
 * `A1#` and `@`: the engine reads them but does not work them out (`A1#` gave the first cell or an error, `@F()` an error).
 * Both are answered here, where their nodes are executed, so that what stands in the cell is untouched.
 */

interface SuffixPrototype extends AstNode {
  _handlerPound(value: NodeValue): NodeValue;
  readonly _currentConfigService: CurrentConfigSeam;
}
/** Nodes of references and of functions. */
interface PlacedNode extends AstNode {
  readonly _currentConfigService: CurrentConfigSeam;
  readonly _runtimeService: RuntimeSeam;
}
interface PrefixPrototype {
  _handlerAT(value: NodeValue): NodeValue;
  readonly _runtimeService: RuntimeSeam;
}

/** Functions that look at where a reference points, not at what stands there: `=ROW(A1)` in A1 is no circle. */
export const placeOnly = new Set(['ROW', 'ROWS', 'COLUMN', 'COLUMNS', 'AREAS', 'SHEET']);

/** The engine's services by the one of them that a node holds. */
const runtimeByConfig = new WeakMap<object, RuntimeSeam>();
const sheetNames = new WeakMap<object, SheetNames>();
const patched = new WeakSet<object>();
/** The cell that stands before the mark of a node, as last read. */
const anchors = new WeakMap<AstNode, NodeValue>();

/** The cell before the mark of a node `A1#`, whatever became of the node itself. */
export const anchorOf = (node: AstNode): NodeValue | undefined => anchors.get(node);

function findNode(node: AstNode | null | undefined, nodeType: number): AstNode | undefined {
  if (!node) return undefined;
  if (node.nodeType === nodeType) return node;
  for (const child of node.getChildren()) {
    const found = findNode(child, nodeType);
    if (found) return found;
  }
  return undefined;
}

/** The name of the sheet that a reference names and that the workbook does not have. */
function missingSheet(value: NodeValue): string | undefined {
  if (!isReference(value)) return undefined;
  const name = value.getForcedSheetName();
  return name && !value.getForcedSheetId() ? name : undefined;
}

/** The cells that the formula of one cell fills: a reference, or an error in words. */
function spilledRange(
  modules: UniverModules,
  config: CurrentConfigSeam,
  runtime: RuntimeSeam,
  value: NodeValue,
): NodeValue {
  const { engine } = modules;
  const sheetNameOf = sheetNames.get(config) ?? ((_unitId: string, sheetId: string) => sheetId);
  if (!isReference(value)) return value.isError() ? value : errorValue(engine, '#REF!', '');
  const unitId = value.getUnitId();
  const sheetId = value.getSheetId();
  const { startRow: row, startColumn: column, endRow, endColumn } = value.getRangePosition();
  const name = `${sheetNameOf(unitId, sheetId)}!${cellName(row, column)}`;
  if (row !== endRow || column !== endColumn) return errorValue(engine, '#REF!', noSpillWords(name));
  if (config.getFormulaData()[unitId]?.[sheetId]?.[row]?.[column] == null) {
    return errorValue(engine, '#REF!', noSpillWords(name));
  }
  const fresh = runtime.getUnitData()[unitId]?.[sheetId]?.getValue(row, column);
  const shown = fresh ?? value.getFirstCell();
  const code = 'getValue' in shown ? shown.getValue() : shown.v;
  if (code === '#SPILL!') return errorValue(engine, '#REF!', blockedSpillWords(name));
  const ranges = fresh ? runtime.getUnitArrayFormula() : config.getArrayFormulaRange();
  const range = ranges[unitId]?.[sheetId]?.[row]?.[column];
  if (!range) return value;
  return referenceTo(modules, value, range);
}

/** A reference to a range that reads the same data as a reference that the engine has prepared. */
function referenceTo(
  { engine }: UniverModules,
  like: ReferenceObject,
  range: { startRow: number; startColumn: number; endRow: number; endColumn: number },
): NodeValue {
  const from = like as unknown as InstanceType<UniverModules['engine']['BaseReferenceObject']>;
  const made = new engine.RangeReferenceObject(range, like.getSheetId(), like.getUnitId());
  made.setDefaultUnitId(from.getDefaultUnitId());
  made.setDefaultSheetId(from.getDefaultSheetId());
  // the engine looks the sheet up anew by its name for what INDEX, OFFSET and CHOOSE point at
  made.setForcedSheetName(from.getForcedSheetName() ?? '');
  made.setForcedSheetIdDirect(from.getForcedSheetId() ?? '');
  made.setUnitData(from.getUnitData());
  made.setUnitStylesData(from.getUnitStylesData());
  made.setArrayFormulaCellData(from.getArrayFormulaCellData());
  made.setArrayFormulaRange(from.getArrayFormulaRange());
  made.setRuntimeData(from.getRuntimeData());
  made.setRuntimeArrayFormulaCellData(from.getRuntimeArrayFormulaCellData());
  made.setRuntimeArrayFormulaRange(from.getRuntimeArrayFormulaRange());
  made.setRuntimeFeatureCellData(from.getRuntimeFeatureCellData());
  return made as unknown as NodeValue;
}

/** An array of the place and the size of a reference, with no cells in it. */
function placeOf({ engine }: UniverModules, reference: ReferenceObject): BaseValueObject {
  const { startRow, startColumn, endRow, endColumn } = reference.getRangePosition();
  return engine.ArrayValueObject.create({
    calculateValueList: [],
    rowCount: endRow - startRow + 1,
    columnCount: endColumn - startColumn + 1,
    unitId: reference.getUnitId(),
    sheetId: reference.getSheetId(),
    row: startRow,
    column: startColumn,
  }) as unknown as BaseValueObject;
}

/** `@`: one value out of a range or an array; the cell of the same row or column where the range is a strip. */
function singleValue(
  { engine }: UniverModules,
  runtime: RuntimeSeam,
  value: NodeValue,
  strip: (value: NodeValue) => NodeValue,
): NodeValue {
  if (!isReference(value)) {
    if (!value.isArray()) return value;
    return value.get(0, 0) ?? errorValue(engine, '#VALUE!', '');
  }
  if (value.isCell()) return value;
  const { startRow, startColumn, endRow, endColumn } = value.getRangePosition();
  if (startRow === endRow && startColumn === endColumn) return value;
  const { currentRow: row, currentColumn: column } = runtime;
  const inRow = startColumn === endColumn && row >= startRow && row <= endRow;
  const inColumn = startRow === endRow && column >= startColumn && column <= endColumn;
  if (inRow || inColumn) {
    return (
      value.toArrayValueObject().get(inRow ? row - startRow : 0, inColumn ? column - startColumn : 0) ?? strip(value)
    );
  }
  return strip(value);
}

export function guardReferences(modules: UniverModules, injector: Injector, names: SheetNames): void {
  const { engine } = modules;
  const config = injector.get(engine.IFormulaCurrentConfigService) as unknown as CurrentConfigSeam;
  const runtime = injector.get(engine.IFormulaRuntimeService) as unknown as RuntimeSeam;
  runtimeByConfig.set(config, runtime);
  sheetNames.set(config, names);

  const builder = injector.get(engine.AstTreeBuilder) as unknown as AstBuilderSeam;
  const lexer = injector.get(engine.Lexer);
  const parse = (formula: string) => builder.parse(lexer.treeBuilder(formula));

  const suffix = findNode(parse('=SUM(A1#)'), SUFFIX_NODE);
  const suffixPrototype = suffix && (Object.getPrototypeOf(suffix) as SuffixPrototype);
  if (suffixPrototype && !patched.has(suffixPrototype)) {
    patched.add(suffixPrototype);
    suffixPrototype._handlerPound = function (this: SuffixPrototype, value) {
      const own = this._currentConfigService;
      const ownRuntime = runtimeByConfig.get(own);
      anchors.set(this, value);
      return ownRuntime ? spilledRange(modules, own, ownRuntime, value) : errorValue(engine, '#REF!', '');
    };
  }

  // alone in a formula the mark stays part of the reference
  const reference = findNode(parse('=A1#'), REFERENCE_NODE);
  const referencePrototype = reference && (Object.getPrototypeOf(reference) as PlacedNode);
  if (referencePrototype && !patched.has(referencePrototype)) {
    patched.add(referencePrototype);
    const execute = referencePrototype.execute;
    referencePrototype.execute = function (this: PlacedNode) {
      execute.call(this);
      const value = this.getValue();
      const missing = value ? missingSheet(value) : undefined;
      if (missing !== undefined) {
        this.setValue(errorValue(engine, '#REF!', unknownSheetWords(missing)));
        return;
      }
      if (!value || !this.getToken().endsWith('#')) return;
      anchors.set(this, value);
      this.setValue(spilledRange(modules, this._currentConfigService, this._runtimeService, value));
    };
  }

  // the engine remembers what a range holds without the name of its sheet: one that is missing got the cells of this one
  const base = engine.BaseReferenceObject.prototype;
  if (!patched.has(base)) {
    patched.add(base);
    const read = base.toArrayValueObject;
    base.toArrayValueObject = function (this: typeof base, useCache = true) {
      return read.call(this, useCache && missingSheet(this as unknown as NodeValue) === undefined);
    };
  }

  // a reference of which only the place is asked is asked before its cells are worked out: they are left unread
  const row = findNode(parse('=ROW(A1)'), FUNCTION_NODE);
  const functionPrototype = row && (Object.getPrototypeOf(row) as PlacedNode);
  if (functionPrototype && !patched.has(functionPrototype)) {
    patched.add(functionPrototype);
    const execute = functionPrototype.execute;
    functionPrototype.execute = function (this: PlacedNode) {
      if (placeOnly.has(this.getToken().toUpperCase())) {
        for (const child of this.getChildren()) {
          const value = child.getValue();
          if (!value || !isReference(value)) continue;
          const read = value.toArrayValueObject.bind(value);
          value.toArrayValueObject = () => (missingSheet(value) === undefined ? placeOf(modules, value) : read(false));
        }
      }
      execute.call(this);
      standNowhere(this.getValue(), this._runtimeService);
    };
  }

  const prefix = findNode(parse('=SUM(@A1:A2)'), PREFIX_NODE);
  const prefixPrototype = prefix && (Object.getPrototypeOf(prefix) as PrefixPrototype);
  if (prefixPrototype && !patched.has(prefixPrototype)) {
    patched.add(prefixPrototype);
    const strip = prefixPrototype._handlerAT;
    prefixPrototype._handlerAT = function (this: PrefixPrototype, value) {
      return singleValue(modules, this._runtimeService, value, (held) => strip.call(this, held));
    };
  }
}
