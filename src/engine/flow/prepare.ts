import type { WorkCount } from '../../numerics/root.ts';
import type { GasState } from '../gas/state.ts';
import { prepareOpening } from './opening.ts';
import type { Passage, PreparedPassage } from './passage.ts';
import { prepareSonic } from './sonic.ts';
import { prepareTube } from './tube.ts';
import { prepareValve } from './valve.ts';

/**
 * Makes a passage ready for one gas state: tables and limits once, then each solve is one monotone root.
 * `count`, where given, counts the evaluations of every root.
 */
export function preparePassage(passage: Passage, gas: GasState, count?: WorkCount): PreparedPassage {
  switch (passage.kind) {
    case 'tube':
      return prepareTube(passage, gas, count);
    case 'opening':
      return prepareOpening(passage, gas, count);
    case 'sonic':
      return prepareSonic(passage, gas, count);
    case 'valve':
      return prepareValve(passage, gas, count);
  }
}
