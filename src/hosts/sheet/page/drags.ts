import { BaseSelectionRenderService } from '@univerjs/preset-sheets-core';

/** The parts of a selection on the screen that the library's types keep private. They hold for the pinned version. */
interface DrawnSelection {
  /** what the handle and the edges of the selection are dragged with, and the sheet whose rows and columns it measures by */
  readonly _controlExtension?: { _skeleton: unknown };
}

/**
 * Lets a selection be dragged, by its handle or its edge, over the rows and columns of the sheet in view. The library uses
 * what it has drawn on one sheet for the next one, and goes on to measure drags by the sheet where it was drawn first.
 */
export function dragOnSheetInView(): void {
  const { prototype } = BaseSelectionRenderService;
  const { resetSelectionsByModelData } = prototype;
  prototype.resetSelectionsByModelData = function (this: BaseSelectionRenderService, selections): void {
    resetSelectionsByModelData.call(this, selections);
    for (const { _controlExtension: shape } of this.getSelectionControls() as unknown as readonly DrawnSelection[])
      if (shape !== undefined) shape._skeleton = this.getSkeleton();
  };
}
