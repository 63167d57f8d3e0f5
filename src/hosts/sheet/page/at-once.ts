import { ICommandService, type Injector } from '@univerjs/core';
import { SetFormulaCalculationStartMutation } from '@univerjs/engine-formula';
import { SetRangeValuesCommand, SetRangeValuesMutation } from '@univerjs/sheets';
import { TriggerCalculationController } from '@univerjs/sheets-formula';
import type { Pace } from '../../../calc/guard-stop.ts';

/** Long enough for everything that one command changes to be there; the library waits for a tenth of a second. */
const GATHER_MS = 0;
/** A calculation that took longer the last time lets the page draw what was typed first. */
const SHORT_MS = 300;

interface Command {
  readonly id: string;
  readonly params?: {
    readonly trigger?: string;
    readonly cellValue?: Record<string, Record<string, { readonly f?: unknown; readonly si?: unknown } | null> | null>;
  };
}

/** The parts of the library's trigger that its types keep private. They hold for the pinned version. */
interface Trigger {
  _setTimeoutKey: unknown;
  _waitingCommandQueue: Command[];
  _startProgress(): void;
  _calculateProgress(): void;
  _completeProgress(): void;
  _generateDirty(commands: readonly Command[]): object;
}

/**
 * Begins a calculation as soon as a cell has changed. The library waits a tenth of a second, in case more changes come; a
 * calculation that is overtaken by a change begins anew here, so there is nothing to wait for. After a value that was typed
 * into cells nothing else is to come at all: a short calculation begins before the page draws, and one picture shows both.
 */
export function calculateAtOnce(injector: Injector, pace: Pace): void {
  const trigger = injector.get(TriggerCalculationController) as unknown as Trigger;
  const commands = injector.get(ICommandService);
  let timer: ReturnType<typeof setTimeout> | undefined;
  let queued = false;
  let began = 0;
  let lastMs = 0;
  pace.onProgress(({ running }) => {
    if (!running && began > 0) {
      lastMs = performance.now() - began;
      began = 0;
    }
  });
  const flush = () => {
    clearTimeout(timer);
    timer = undefined;
    if (trigger._waitingCommandQueue.length === 0) return;
    const dirty = trigger._generateDirty(trigger._waitingCommandQueue);
    trigger._waitingCommandQueue = [];
    began = performance.now();
    void commands.executeCommand(SetFormulaCalculationStartMutation.id, dirty, { onlyLocal: true });
  };
  // The bar over the grid shows how far a calculation is; the library's own line knows no words for it.
  const nothing = () => {};
  Object.assign(trigger, { _startProgress: nothing, _calculateProgress: nothing, _completeProgress: nothing });
  Object.defineProperty(trigger, '_setTimeoutKey', {
    get: () => timer,
    set(librarys: ReturnType<typeof setTimeout>) {
      clearTimeout(librarys);
      clearTimeout(timer);
      timer = setTimeout(flush, GATHER_MS);
      if (queued || lastMs > SHORT_MS || !trigger._waitingCommandQueue.every(isPlainEntry)) return;
      queued = true;
      queueMicrotask(() => {
        queued = false;
        if (trigger._waitingCommandQueue.every(isPlainEntry)) flush();
      });
    },
  });
}

/** Whether a command did nothing but put values, no formulas, into cells. */
function isPlainEntry({ id, params }: Command): boolean {
  if (id !== SetRangeValuesMutation.id || params?.trigger !== SetRangeValuesCommand.id) return false;
  return Object.values(params.cellValue ?? {}).every((row) =>
    Object.values(row ?? {}).every((cell) => !cell?.f && !cell?.si),
  );
}
