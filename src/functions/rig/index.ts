import type { CellFunction } from '../define.ts';
import { rigCompare } from './compare.ts';
import { rigFit } from './fit.ts';
import { rigGauge } from './gauge.ts';
import { rigMeter } from './meter.ts';
import { rigProfileTable } from './profile.ts';
import { rigSpeed } from './speed.ts';
import { rigSwaps } from './swaps.ts';

/** The functions of the group Rig, in the order of the list. */
export const rig: readonly CellFunction[] = [
  rigSpeed,
  rigMeter,
  rigProfileTable,
  rigGauge,
  rigCompare,
  rigSwaps,
  rigFit,
];
