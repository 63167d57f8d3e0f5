import { runAccount } from './assert.ts';
import { gases } from './flow-gases.ts';

runAccount(gases);
