import type { Account } from './account.ts';
import { cautions } from './cautions.ts';
import { choked } from './flow-choked.ts';
import { gases } from './flow-gases.ts';
import { openings } from './flow-openings.ts';
import { rarefiedTubes, transmissions } from './flow-tubes.ts';
import { valves } from './flow-valves.ts';
import { practice } from './practice.ts';
import { pumpDown } from './pumpdown.ts';
import { refrigerants } from './refrigerants.ts';
import { charging, recovery } from './transfers.ts';
import { tubes } from './tubes.ts';
import { units } from './units.ts';
import { water } from './water.ts';

/** One for each file of reference rows. */
export const accounts: readonly Account[] = [
  rarefiedTubes,
  transmissions,
  openings,
  choked,
  valves,
  gases,
  water,
  pumpDown,
  refrigerants,
  recovery,
  charging,
  tubes,
  units,
  practice,
  cautions,
];
