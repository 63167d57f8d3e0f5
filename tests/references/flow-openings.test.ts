import { runAccount } from './assert.ts';
import { openings } from './flow-openings.ts';

runAccount(openings);
