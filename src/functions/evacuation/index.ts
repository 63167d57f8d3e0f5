import type { CellFunction } from '../define.ts';
import { evacNetwork } from '../network/network.ts';
import { evacBreaks } from './breaks.ts';
import { evacCurve } from './curve.ts';
import { evacProject } from './project.ts';
import { pumpNeededSpeed } from './pump-needed.ts';
import { pumpPick } from './pump-pick.ts';
import { evacTime } from './time.ts';

/** The functions of the group Evacuation, in the order of the list. */
export const evacuation: readonly CellFunction[] = [
  evacTime,
  evacCurve,
  evacProject,
  evacBreaks,
  evacNetwork,
  pumpNeededSpeed,
  pumpPick,
];
