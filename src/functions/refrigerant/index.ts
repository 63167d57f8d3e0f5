import type { CellFunction } from '../define.ts';
import { chargeLines } from './charge-lines.ts';
import { cylinderFillFunction } from './cylinder-fill.ts';
import { recoverTarget } from './recover-target.ts';

/** What is read off properties and rules; the marches in time stand in folders of their own. */
export const refrigerants: readonly CellFunction[] = [recoverTarget, chargeLines, cylinderFillFunction];
