import type { PaneHost } from '../../pane/host.ts';
import type { Grid } from './page/grid.ts';

/** The task pane's view of the embedded sheet. */
export function createPaneHost(grid: Grid): PaneHost {
  const { api } = grid;
  return {
    name: 'Sheet',
    async insertFormula(formula) {
      api.getActiveWorkbook()?.getActiveCell()?.setFormula(formula);
    },
    async selectedAddress() {
      return api.getActiveWorkbook()?.getActiveCell()?.getA1Notation(true);
    },
    onSelection(listener) {
      const subscription = api.addEvent(api.Event.SelectionChanged, listener);
      return () => subscription.dispose();
    },
    async addTemplate() {
      return { added: [], skipped: [] };
    },
    async faults() {
      return [];
    },
    async goTo() {},
    async reenter() {
      return 0;
    },
    async freeze() {
      return 0;
    },
  };
}
