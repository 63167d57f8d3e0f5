import { Fault, type Issue } from '../src/faults/issue.ts';

/** What a call finds fault with; undefined if it finds none. */
export function issueOf(call: () => unknown): Issue | undefined {
  try {
    call();
  } catch (error) {
    if (error instanceof Fault) return error.issue;
    throw error;
  }
  return undefined;
}

/** That one pressure (Pa) must be above another, in full. */
export function orderIssue(upper: string, upperValue: number, lower: string, lowerValue: number): Issue {
  return { kind: 'order', upper, upperValue, lower, lowerValue, unit: 'Pa' };
}
