import { type KeyboardEvent, useId, useRef, useState } from 'react';
import type { CellFunction } from '../functions/define.ts';
import { CautionNotes } from './cautions.tsx';
import { FunctionList } from './functions.tsx';
import type { PaneHost } from './host.ts';
import { RigTab } from './rig/rig-tab.tsx';
import { SelectedCell } from './selected.tsx';
import { WorkbookTools } from './workbook.tsx';

const TABS = ['Cautions', 'Functions', 'Rig', 'Workbook'] as const;
type Tab = (typeof TABS)[number];

/** The task pane: cautions first, then the functions, the drawing of a rig, what can be done with the workbook; the selected cell below. */
export function Pane({ host, functions }: { readonly host: PaneHost; readonly functions: readonly CellFunction[] }) {
  const [tab, setTab] = useState<Tab>('Cautions');
  const id = useId();
  const buttons = useRef(new Map<Tab, HTMLButtonElement>());

  function move(event: KeyboardEvent) {
    const at = TABS.indexOf(tab);
    const next = { ArrowRight: at + 1, ArrowLeft: at - 1, Home: 0, End: TABS.length - 1 }[event.key];
    if (next === undefined) return;
    event.preventDefault();
    const to = TABS[(next + TABS.length) % TABS.length] ?? tab;
    setTab(to);
    buttons.current.get(to)?.focus();
  }

  return (
    <section className="nw-pane" aria-label="Narrows task pane">
      <div className="nw-tabs" role="tablist" aria-label="Sections of the pane">
        {TABS.map((name) => (
          <button
            key={name}
            type="button"
            role="tab"
            id={`${id}-${name}`}
            aria-controls={`${id}-panel-${name}`}
            aria-selected={name === tab}
            tabIndex={name === tab ? 0 : -1}
            className="nw-tab"
            ref={(button) => {
              if (button) buttons.current.set(name, button);
            }}
            onClick={() => setTab(name)}
            onKeyDown={move}
          >
            {name}
          </button>
        ))}
      </div>
      {TABS.map((name) => (
        <div
          key={name}
          role="tabpanel"
          id={`${id}-panel-${name}`}
          aria-labelledby={`${id}-${name}`}
          className="nw-panel"
          hidden={name !== tab}
        >
          {name === 'Cautions' && <CautionNotes />}
          {name === 'Functions' && <FunctionList host={host} functions={functions} />}
          {name === 'Rig' && <RigTab host={host} />}
          {name === 'Workbook' && <WorkbookTools host={host} />}
        </div>
      ))}
      <SelectedCell host={host} />
    </section>
  );
}
