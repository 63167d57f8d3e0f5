import { raise } from '../faults/issue.ts';
import { type Block, parseBlock, parseSpot, type Spot } from './address.ts';

/** A cell of a model by its address. @throws wrong where it is none */
export function spotAt(address: string): Spot {
  return parseSpot(address) ?? badAddress(address);
}

/** A range of a model by its address. @throws wrong where it is none */
export function blockAt(range: string): Block {
  return parseBlock(range) ?? badAddress(range);
}

function badAddress(address: string): never {
  return raise({
    kind: 'wrong',
    argument: 'Address',
    found: address,
    allowed: 'a cell such as B4 or a range such as A1:D9',
    todo: 'correct the address in the model',
  });
}
