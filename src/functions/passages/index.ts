import type { CellFunction } from '../define.ts';
import { parallel } from './parallel.ts';
import { portFlow } from './port-flow.ts';
import { regime } from './regime.ts';
import { series } from './series.ts';
import { tubeConductance } from './tube-conductance.ts';
import { tubeFlow } from './tube-flow.ts';
import { valveFlow } from './valve-flow.ts';

export const passages: readonly CellFunction[] = [
  tubeConductance,
  tubeFlow,
  portFlow,
  valveFlow,
  regime,
  series,
  parallel,
];
