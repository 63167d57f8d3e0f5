import { ICommandService, type Injector } from '@univerjs/core';
import { SetFormulaCalculationStartMutation } from '@univerjs/engine-formula';
import { TriggerCalculationController } from '@univerjs/sheets-formula';

/** Long enough for everything that one keystroke changes to be there; the library waits ten times as long. */
const GATHER_MS = 0;

/** The parts of the library's trigger that its types keep private. They hold for the pinned version. */
interface Trigger {
  _setTimeoutKey: unknown;
  _waitingCommandQueue: unknown[];
  _startProgress(): void;
  _calculateProgress(): void;
  _completeProgress(): void;
  _generateDirty(commands: readonly unknown[]): object;
}

/**
 * Begins a calculation as soon as a cell has changed. The library waits a tenth of a second, in case more changes come; a
 * calculation that is overtaken by a change begins anew here, so there is nothing to wait for.
 */
export function calculateAtOnce(injector: Injector): void {
  const trigger = injector.get(TriggerCalculationController) as unknown as Trigger;
  const commands = injector.get(ICommandService);
  let timer: ReturnType<typeof setTimeout> | undefined;
  const flush = () => {
    timer = undefined;
    const dirty = trigger._generateDirty(trigger._waitingCommandQueue);
    trigger._waitingCommandQueue = [];
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
    },
  });
}
