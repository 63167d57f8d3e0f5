import { runAccount } from './assert.ts';
import { units } from './units.ts';

runAccount(units);
