/**
 * The parts of the formula engine that the guards lean on and that its published types keep private or leave out, as
 * small interfaces of our own. They hold for the pinned version; `tests/calc/seams.test.ts` fails when one is gone.
 */

export interface CellRectangle {
  readonly startRow: number;
  readonly startColumn: number;
  readonly endRow: number;
  readonly endColumn: number;
}

/** A rectangle of cells of one sheet of one workbook. */
export interface SheetRectangle {
  readonly unitId: string;
  readonly sheetId: string;
  readonly range: CellRectangle;
}

/** A value that the engine computes with. */
export interface BaseValueObject {
  isReferenceObject(): boolean;
  isArray(): boolean;
  isError(): boolean;
  isNull(): boolean;
  isLambda(): boolean;
  isNumber(): boolean;
  isBoolean(): boolean;
  isString(): boolean;
  getValue(): unknown;
  /** number format */
  getPattern(): string;
  getErrorContent(): string;
  /** arrays only */
  getRowCount(): number;
  getColumnCount(): number;
  get(row: number, column: number): BaseValueObject | null;
}

/** A reference to cells, not yet read. */
export interface ReferenceObject {
  isReferenceObject(): boolean;
  isArray(): boolean;
  isError(): boolean;
  isCell(): boolean;
  getUnitId(): string;
  getSheetId(): string;
  getRangePosition(): CellRectangle;
  getFirstCell(): BaseValueObject;
  toArrayValueObject(useCache?: boolean): BaseValueObject;
  toUnitRange(): SheetRectangle;
  /** the sheet that is named before the address, and its id where there is such a sheet */
  getForcedSheetName(): string;
  getForcedSheetId(): string | undefined;
}

export type NodeValue = BaseValueObject | ReferenceObject;

export const isReference = (value: NodeValue): value is ReferenceObject => value.isReferenceObject();

/** What a node of a formula is, by `nodeType`. */
export const REFERENCE_NODE = 1;
export const OPERATOR_NODE = 3;
export const FUNCTION_NODE = 4;
export const UNION_NODE = 10;
export const PREFIX_NODE = 11;
export const SUFFIX_NODE = 12;

export interface AstNode {
  readonly nodeType: number;
  getToken(): string;
  getChildren(): readonly AstNode[];
  getValue(): NodeValue | null | undefined;
  setValue(value: NodeValue | null): void;
  execute(): void;
  /** nodes of LAMBDA alone */
  isEmptyParamFunction?(): boolean;
  /** nodes of references alone */
  setRefOffset?(x: number, y: number): void;
}

export interface Matrix<T> {
  getValue(row: number, column: number): T | null | undefined;
  setValue(row: number, column: number, value: T): void;
  realDeleteValue(row: number, column: number): void;
  forValue(visit: (row: number, column: number, value: T) => boolean | undefined): void;
}

export type RowsOf<T> = Record<number, Record<number, T> | undefined>;
export type BySheet<T> = Record<string, Record<string, T | null | undefined> | null | undefined>;

export interface StoredCell {
  readonly v?: string | number | boolean | null;
  readonly t?: number | null;
  readonly f?: string | null;
}

export interface RuntimeSeam {
  readonly currentRow: number;
  readonly currentColumn: number;
  readonly currentSubUnitId: string;
  readonly currentUnitId: string;
  setCurrent(row: number, column: number, rowCount: number, columnCount: number, sheetId: string, unitId: string): void;
  setRuntimeData(value: NodeValue): void;
  isStopExecution(): boolean;
  /** whether something stands where a result wants to fill cells */
  _checkIfArrayFormulaRangeHasData(
    unitId: string,
    sheetId: string,
    row: number,
    column: number,
    range: CellRectangle,
  ): boolean;
  getUnitData(): BySheet<Matrix<StoredCell>>;
  getUnitArrayFormula(): BySheet<RowsOf<CellRectangle>>;
  reset(): void;
}

export interface CurrentConfigSeam {
  getFormulaData(): BySheet<RowsOf<{ readonly f?: string } | null>>;
  getArrayFormulaRange(): BySheet<RowsOf<CellRectangle>>;
  getArrayFormulaCellData(): BySheet<Matrix<StoredCell>>;
  loadDirtyRangesAndExcludedCell(ranges: readonly SheetRectangle[], excluded: object): void;
  loadDataLite(): void;
}

/** A formula cell in the engine's graph of dependencies. */
export interface Tree {
  readonly treeId: number;
  readonly unitId: string;
  readonly subUnitId: string;
  readonly row: number;
  readonly column: number;
  readonly featureId?: string | null;
  readonly formulaId?: string | null;
  toRTreeItem(): readonly SheetRectangle[];
}

export interface GeneratorSeam {
  readonly _dependencyTreeCache: Map<number, Tree>;
  readonly _dependencyManagerService: { searchDependency(ranges: readonly SheetRectangle[]): Set<number> };
  readonly _dependencyRTreeCacheForAddressFunction: {
    bulkSearch(ranges: readonly SheetRectangle[]): Set<number>;
  };
  /** gets the order of the run: the last tree is worked out first */
  _checkIsCycleDependency(trees: Tree[]): boolean;
  _createFDtree(...args: unknown[]): Tree;
  _createVirtualFDtree(...args: unknown[]): Tree;
  _nodeTraversalRef(node: AstNode, found: AstNode[]): void;
}

export interface CalculateSeam {
  _apply(isArrayFormulaState?: boolean): Promise<object | undefined>;
  _executeStep(): Promise<true | undefined>;
}

export interface InterpreterSeam {
  execute(node: object): NodeValue;
  executeAsync(node: object): Promise<NodeValue>;
  checkAsyncNode(node: AstNode): boolean;
  /** works out what is below a node, then itself; 1 when the calculation was stopped */
  _execute(node: AstNode, refOffsetX?: number, refOffsetY?: number): number;
}

export interface AstBuilderSeam {
  readonly _astNodeFactoryList: { checkAndCreateNodeType(item: unknown): AstNode | null | undefined }[];
  parse(lexerNode: unknown): AstNode | null | undefined;
}

export interface LexerSeam {
  treeBuilder(formula: string, transformSuffix?: boolean): unknown;
}
