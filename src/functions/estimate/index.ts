import type { CellFunction } from '../define.ts';
import { crewPlan } from './crew-plan.ts';
import { gearPareto } from './gear-pareto.ts';
import { gearSwaps } from './gear-swaps.ts';
import { labourRisk } from './labour-risk.ts';
import { labourTable } from './labour-table.ts';

/** The functions of the group Estimate, in the order of the list. */
export const estimate: readonly CellFunction[] = [labourTable, labourRisk, crewPlan, gearPareto, gearSwaps];
