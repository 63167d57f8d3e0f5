import type { CellFunction } from '../define.ts';
import { leakRateFunction } from './leak-rate.ts';
import { holdRead } from './read.ts';
import { holdRise } from './rise.ts';

export const hold: readonly CellFunction[] = [holdRise, holdRead, leakRateFunction];
