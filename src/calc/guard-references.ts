import { cellName } from './formula-text.ts';
import {
  type AstBuilderSeam,
  type AstNode,
  type CurrentConfigSeam,
  isReference,
  type NodeValue,
  type ReferenceObject,
  type RuntimeSeam,
} from './seams.ts';
import type { Injector, UniverModules } from './univer.ts';
import { errorValue } from './values.ts';
import { blockedSpillWords, noSpillWords } from './words.ts';

/**
 * `A1#` and `@`: the engine reads them but does not work them out (`A1#` gave the first cell or an error, `@F()` an error).
 * Both are answered here, where their nodes are executed, so that what stands in the cell is untouched.
 */

const PREFIX_NODE = 11;
const SUFFIX_NODE = 12;

interface SuffixPrototype {
  _handlerPound(value: NodeValue): NodeValue;
}
interface PrefixPrototype {
  _handlerAT(value: NodeValue): NodeValue;
  readonly _runtimeService: RuntimeSeam;
}

/** The engine's services by the one of them that a node holds. */
const runtimeByConfig = new WeakMap<object, RuntimeSeam>();
const patched = new WeakSet<object>();

function findNode(node: AstNode | null | undefined, nodeType: number): AstNode | undefined {
  if (!node) return undefined;
  if (node.nodeType === nodeType) return node;
  for (const child of node.getChildren()) {
    const found = findNode(child, nodeType);
    if (found) return found;
  }
  return undefined;
}

/** The cells that the formula of one cell fills: a reference, or an error in words. */
function spilledRange(
  modules: UniverModules,
  config: CurrentConfigSeam,
  runtime: RuntimeSeam,
  value: NodeValue,
): NodeValue {
  const { engine } = modules;
  if (!isReference(value)) return value.isError() ? value : errorValue(engine, '#REF!', '');
  const unitId = value.getUnitId();
  const sheetId = value.getSheetId();
  const { startRow: row, startColumn: column, endRow, endColumn } = value.getRangePosition();
  const name = `${config.getSheetName(unitId, sheetId)}!${cellName(row, column)}`;
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

export function guardReferences(modules: UniverModules, injector: Injector): void {
  const { engine } = modules;
  const config = injector.get(engine.IFormulaCurrentConfigService) as unknown as CurrentConfigSeam;
  const runtime = injector.get(engine.IFormulaRuntimeService) as unknown as RuntimeSeam;
  runtimeByConfig.set(config, runtime);

  const builder = injector.get(engine.AstTreeBuilder) as unknown as AstBuilderSeam;
  const lexer = injector.get(engine.Lexer);
  const parse = (formula: string) => builder.parse(lexer.treeBuilder(formula));

  const suffix = findNode(parse('=SUM(A1#)'), SUFFIX_NODE);
  const suffixPrototype = suffix && (Object.getPrototypeOf(suffix) as SuffixPrototype);
  if (suffixPrototype && !patched.has(suffixPrototype)) {
    patched.add(suffixPrototype);
    suffixPrototype._handlerPound = function (this: { _currentConfigService: CurrentConfigSeam }, value) {
      const own = this._currentConfigService;
      const ownRuntime = runtimeByConfig.get(own);
      return ownRuntime ? spilledRange(modules, own, ownRuntime, value) : errorValue(engine, '#REF!', '');
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
