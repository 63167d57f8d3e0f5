import { createRoot } from 'react-dom/client';
import { functions } from '../functions/index.ts';
import type { PaneHost } from './host.ts';
import { Pane } from './pane.tsx';
import './pane.css';

/** Shows the task pane in `element`; returns how to take it away. */
export function mountPane(element: HTMLElement, host: PaneHost): () => void {
  const root = createRoot(element);
  root.render(<Pane host={host} functions={functions} />);
  return () => root.unmount();
}
