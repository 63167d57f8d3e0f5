import './style.css';
import { createGrid } from './grid.ts';

const container = document.getElementById('nw-grid');
if (container) {
  const grid = createGrid(container);
  grid.show({});
  Object.assign(window, { narrows: grid });
}
