import {
  type AstNode,
  type BaseValueObject,
  FUNCTION_NODE,
  isReference,
  type NodeValue,
  OPERATOR_NODE,
} from './seams.ts';

/** Functions that make one value of one value, cell by cell where they are given many. */
const CELL_BY_CELL = new Set(
  [
    'NOT ISBLANK ISERR ISERROR ISEVEN ISLOGICAL ISNA ISNONTEXT ISNUMBER ISODD ISTEXT EXACT N T VALUE TEXT',
    'ABS INT SIGN SQRT EXP LN LOG LOG10 POWER MOD ROUND ROUNDUP ROUNDDOWN TRUNC CEILING FLOOR',
    'LEFT RIGHT MID LEN FIND SEARCH TRIM CLEAN UPPER LOWER PROPER SUBSTITUTE REPLACE REPT CHAR CODE',
    'DATE YEAR MONTH DAY TIME HOUR MINUTE SECOND',
  ].flatMap((names) => names.split(' ')),
);

/** Functions that hand on one of their arguments, or one that they find for their first. */
const CHOICES = new Set(['IF', 'IFERROR', 'IFNA', 'IFS', 'SWITCH', 'CHOOSE']);
const LOOK_UPS = new Set(['VLOOKUP', 'HLOOKUP', 'LOOKUP', 'XLOOKUP', 'MATCH', 'XMATCH']);

const isOneCell = (value: NodeValue): value is BaseValueObject =>
  !isReference(value) && value.isArray() && value.getRowCount() * value.getColumnCount() === 1;

/** Whether a part of a formula stands for one value: it is one, or was made of such. */
function isSingle(node: AstNode | undefined): boolean {
  const value = node?.getValue();
  if (!node || !value) return false;
  if (isReference(value)) return value.isCell();
  if (!value.isArray()) return true;
  if (!isOneCell(value) || node.nodeType !== FUNCTION_NODE) return false;
  const name = node.getToken().toUpperCase();
  const children = node.getChildren();
  return CHOICES.has(name) ? children.every(isSingle) : LOOK_UPS.has(name) && isSingle(children[0]);
}

/**
 * The engine makes an array of one cell where a formula reckons with a cell, and truth values and text in arrays do not count:
 * `SUM(B1>0,B2>0)` was 0 and `MAX(ISNUMBER(B1),-4)` was -4. What is made of single cells is one value again.
 */
export function singleAgain(node: AstNode): void {
  const { nodeType } = node;
  if (nodeType !== OPERATOR_NODE && !(nodeType === FUNCTION_NODE && CELL_BY_CELL.has(node.getToken().toUpperCase())))
    return;
  const value = node.getValue();
  if (!value || !isOneCell(value) || !node.getChildren().every(isSingle)) return;
  const single = value.get(0, 0);
  if (single) node.setValue(single);
}
