/** Exit statuses of the command. */
export const exitStatus = {
  ok: 0,
  /** a cell ends in an error */
  cellError: 1,
  /** bad usage, or a file that cannot be read */
  badUse: 2,
} as const;

/** A reason to stop with status 2 that is told in one line. */
export class Refusal extends Error {}
