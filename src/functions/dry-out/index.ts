import type { CellFunction } from '../define.ts';
import { dryCurve } from './curve.ts';
import { dryTime } from './time.ts';

/** The functions of the group Dry-out, in the order of the list. */
export const dryOut: readonly CellFunction[] = [dryTime, dryCurve];
