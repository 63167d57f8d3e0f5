import type { CellFunction } from '../define.ts';
import { recoverCurve } from './curve.ts';
import { recoverTime } from './time.ts';

/** Recovery with a machine, in the order of the list. */
export const recovery: readonly CellFunction[] = [recoverTime, recoverCurve];
