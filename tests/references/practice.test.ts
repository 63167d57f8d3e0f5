import { runAccount } from './assert.ts';
import { practice } from './practice.ts';

runAccount(practice);
