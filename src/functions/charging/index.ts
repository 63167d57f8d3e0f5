import type { CellFunction } from '../define.ts';
import { chargeCurve } from './curve.ts';
import { chargeTime } from './time.ts';

export const charging: readonly CellFunction[] = [chargeTime, chargeCurve];
