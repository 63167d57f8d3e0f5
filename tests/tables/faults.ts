import { Fault, type Issue, type Place } from '../../src/faults/issue.ts';
import type { FaultSink } from '../../src/tables/table.ts';

/** The fault that a reading raises, or undefined. */
export function faultOf(read: () => unknown): { readonly issue: Issue; readonly place: Place | undefined } | undefined {
  try {
    read();
  } catch (error) {
    if (error instanceof Fault) return { issue: error.issue, place: error.place };
    throw error;
  }
  return undefined;
}

/** All faults of a reading that goes on after each. */
export function allFaults(read: (sink: FaultSink) => unknown): readonly Fault[] {
  const faults: Fault[] = [];
  read((fault) => faults.push(fault));
  return faults;
}
