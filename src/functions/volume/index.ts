import type { CellFunction } from '../define.ts';
import { runTable } from './run-table.ts';
import { runVolume } from './run-volume.ts';

export const volume: readonly CellFunction[] = [runVolume, runTable];
