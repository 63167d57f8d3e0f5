import { requestImmediateMacroTask } from '@univerjs/core';
import { Layer } from '@univerjs/preset-sheets-core';

/** A part of the library's layers that its types keep private: takes back what is due, and is called when a layer goes. */
interface Due {
  _debounceDirtyFunc?: (() => void) | null;
}

/**
 * A change draws some hundred things anew, and for each the library takes back the drawing of its layer that is due and asks
 * for another, with a message channel of its own. The one that is due draws them all.
 */
export function drawLayersOnce(): void {
  const states = new WeakMap<Layer, boolean>();
  Layer.prototype.makeDirtyWithDebounce = function (this: Layer, state = true): void {
    const due = this as unknown as Due;
    states.set(this, state);
    if (due._debounceDirtyFunc) return;
    due._debounceDirtyFunc = requestImmediateMacroTask(() => {
      // closes the channel
      due._debounceDirtyFunc?.();
      due._debounceDirtyFunc = null;
      this.makeDirty(states.get(this));
    });
  };
}
