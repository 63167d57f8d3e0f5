import type { PaneHost } from '../../pane/host.ts';

function refuse(): Promise<never> {
  return Promise.reject(new Error('there is no sheet here. Open the pane in Excel.'));
}

/** The pane's host on a page that is opened outside Excel: cautions and functions are there to read, no sheet is. */
export const noSheet: PaneHost = {
  name: 'Preview without a sheet',
  insertFormula: refuse,
  selectedAddress: () => Promise.resolve(undefined),
  onSelection: () => () => {},
  cells: () => Promise.resolve(undefined),
  selectedRow: () => Promise.resolve(undefined),
  onChange: () => () => {},
  addTemplate: refuse,
  faults: refuse,
  put: refuse,
  goTo: refuse,
  reenter: refuse,
  freeze: refuse,
  restore: refuse,
};
