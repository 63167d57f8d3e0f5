// Made by tools/refrigerants/make_tables.py with CoolProp 8.0.0: change it there.
import type { RefrigerantTable } from '../table.ts';
import { r22 } from './r-22.ts';
import { r32 } from './r-32.ts';
import { r134a } from './r-134a.ts';
import { r290 } from './r-290.ts';
import { r404a } from './r-404a.ts';
import { r407c } from './r-407c.ts';
import { r410a } from './r-410a.ts';
import { r448a } from './r-448a.ts';
import { r449a } from './r-449a.ts';
import { r452a } from './r-452a.ts';
import { r454b } from './r-454b.ts';
import { r454c } from './r-454c.ts';
import { r507a } from './r-507a.ts';
import { r513a } from './r-513a.ts';
import { r600a } from './r-600a.ts';
import { r717 } from './r-717.ts';
import { r744 } from './r-744.ts';
import { r1234yf } from './r-1234yf.ts';
import { r1234zee } from './r-1234zee.ts';

/** The library that the tables were made with. */
export const MADE_WITH = 'CoolProp 8.0.0';

export const TABLES: readonly RefrigerantTable[] = [
  r22,
  r32,
  r134a,
  r290,
  r404a,
  r407c,
  r410a,
  r448a,
  r449a,
  r452a,
  r454b,
  r454c,
  r507a,
  r513a,
  r600a,
  r717,
  r744,
  r1234yf,
  r1234zee,
];
