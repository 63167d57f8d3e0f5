import './style.css';
import { mountPane } from '../../../pane/mount.tsx';
import { createPaneHost } from '../pane-host.ts';
import { createBar } from './bar.ts';
import { createGrid } from './grid.ts';

function part(id: string): HTMLElement {
  const element = document.getElementById(id);
  if (element === null) throw new Error(`the page has no ${id}`);
  return element;
}

const grid = createGrid(part('nw-sheet'));
createBar(part('nw-bar'), { open() {}, save() {}, fresh() {} });
grid.show({});
mountPane(part('nw-pane'), createPaneHost(grid));
