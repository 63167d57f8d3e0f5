import type { CellFunction } from '../functions/define.ts';

export const registry: readonly CellFunction[] = [];
