import type { CellRange } from '../../../src/tables/cells.ts';

/** no hold, no looks: set-up and pack-up with the pull between them */
export const PLAIN: CellRange = [
  ['Set-up', 20, 'min'],
  ['Pack-up', 10, 'min'],
  ['Hold', 0, 'min'],
  ['Hold readings', 0, ''],
  ['Check interval', 0, 'min'],
  ['Travel between areas', 0, 'min'],
];
