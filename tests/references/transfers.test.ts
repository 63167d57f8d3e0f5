import { runAccount } from './assert.ts';
import { charging, recovery } from './transfers.ts';

runAccount(recovery);
runAccount(charging);
