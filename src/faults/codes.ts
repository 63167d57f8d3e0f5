import type { ErrorCode, Issue } from './issue.ts';

/**
 * Which cell error an issue gives: `#VALUE!` for a wrong argument, `#N/A` where there is no such row or no solution,
 * `#NUM!` outside the range where a model holds.
 */
const CODES: { readonly [K in Issue['kind']]: ErrorCode } = {
  limit: '#VALUE!',
  'not-a-number': '#VALUE!',
  'not-text': '#VALUE!',
  unit: '#VALUE!',
  missing: '#VALUE!',
  unknown: '#N/A',
  'missing-header': '#VALUE!',
  'duplicate-header': '#VALUE!',
  'empty-table': '#VALUE!',
  'too-many-rows': '#VALUE!',
  order: '#VALUE!',
  'out-of-reach': '#N/A',
  'no-pump': '#VALUE!',
  'no-solution': '#N/A',
  'cell-error': '#VALUE!',
  'model-range': '#NUM!',
  arguments: '#VALUE!',
  wrong: '#VALUE!',
  'not-finite': '#NUM!',
  internal: '#VALUE!',
};

const OWN: ReadonlySet<string> = new Set<ErrorCode>(['#VALUE!', '#N/A', '#NUM!']);

export function isErrorCode(code: string): code is ErrorCode {
  return OWN.has(code);
}

export function codeOf(issue: Issue): ErrorCode {
  // an error that came in with an argument goes out as it came where we have that error at all
  if (issue.kind === 'cell-error' && isErrorCode(issue.code)) return issue.code;
  return CODES[issue.kind];
}
