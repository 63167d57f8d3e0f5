/** What Excel's custom functions runtime would hold, for a page that is opened outside Excel and for tests. */
export interface StandIn {
  readonly bodies: ReadonlyMap<string, (...given: unknown[]) => unknown>;
  readonly runtime: typeof CustomFunctions;
  /** A cell that asks for a function: busy until the function is registered, then its value or its error. */
  cell(id: string, ...given: readonly unknown[]): Promise<unknown>;
}

/** An error as Excel's runtime has it: a code and, for two of the codes, words. */
class StandInError extends Error {
  readonly code: string;
  constructor(code: string, message?: string) {
    super(message ?? '');
    this.name = 'CustomFunctions.Error';
    this.code = code;
  }
}

/** Codes as the platform's published reference lists them. */
const ErrorCode = {
  invalidValue: '#VALUE!',
  notAvailable: '#N/A',
  divisionByZero: '#DIV/0!',
  invalidNumber: '#NUM!',
  nullReference: '#NULL!',
  invalidName: '#NAME?',
  invalidReference: '#REF!',
} as const;

export function createStandIn(): StandIn {
  const waiting = new Map<string, (() => void)[]>();
  const bodies = new Map<string, (...given: unknown[]) => unknown>();
  function associate(id: string, body: (...given: unknown[]) => unknown): void {
    bodies.set(id, body);
    for (const wake of waiting.get(id) ?? []) wake();
    waiting.delete(id);
  }
  async function cell(id: string, ...given: readonly unknown[]): Promise<unknown> {
    if (!bodies.has(id)) {
      await new Promise<void>((wake) => {
        waiting.set(id, [...(waiting.get(id) ?? []), wake]);
      });
    }
    return bodies.get(id)?.(...given);
  }
  return { bodies, cell, runtime: { associate, Error: StandInError, ErrorCode } as unknown as typeof CustomFunctions };
}

/** Puts a stand-in where Excel would put its runtime. */
export function installStandIn(): StandIn {
  const standIn = createStandIn();
  Object.assign(globalThis, { CustomFunctions: standIn.runtime });
  return standIn;
}
