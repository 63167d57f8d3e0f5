import type { CellFunction } from '../define.ts';
import { labourTable } from './labour-table.ts';

/** The functions of the group Estimate, in the order of the list. */
export const estimate: readonly CellFunction[] = [labourTable];
