import type { FaultWords } from '../../functions/outcome.ts';
import { splitAddress } from './addresses.ts';

/** Most cells that are remembered; the oldest go first. */
const MOST_CELLS = 50_000;

const messages = new Map<string, FaultWords>();

/** One key for a cell, however a platform quotes and fixes its address. */
function keyOf(address: string): string {
  const { sheet, cells } = splitAddress(address);
  return `${sheet}!${cells}`.toLowerCase();
}

/** Keeps the words of a cell's error: Excel shows them on some platforms only and hands them back on none. */
export function remember(address: string, found: FaultWords): void {
  const key = keyOf(address);
  messages.delete(key);
  messages.set(key, found);
  if (messages.size <= MOST_CELLS) return;
  for (const oldest of messages.keys()) {
    messages.delete(oldest);
    break;
  }
}

export function forget(address: string): void {
  messages.delete(keyOf(address));
}

export function recall(address: string): FaultWords | undefined {
  return messages.get(keyOf(address));
}
