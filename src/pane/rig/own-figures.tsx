import { useRef } from 'react';
import type { CellNote, PaneHost } from '../host.ts';
import { MendButton } from '../mend-button.tsx';
import { useTask } from '../task.ts';

/** Parts of the drawn rig that bear a name of the library and other figures: the drawing shows the figures. */
export function OwnFigures({ host, notes }: { readonly host: PaneHost; readonly notes: readonly CellNote[] }) {
  const task = useTask();
  const frame = useRef<HTMLDivElement>(null);
  return (
    <div ref={frame} tabIndex={-1}>
      {notes.length > 0 && (
        <ul className="nw-faults" aria-label="Parts with figures of their own">
          {notes.map((note) => (
            <li key={note.address} className="nw-fault">
              <p>
                <strong>{note.address}</strong> {note.message}
              </p>
              {/* the note goes with its button: the focus stays near */}
              <MendButton note={note} host={host} task={task} mended={false} onMended={() => frame.current?.focus()} />
            </li>
          ))}
        </ul>
      )}
      <p className="nw-outcome" role="status" aria-label="Figures of the library">
        {task.said}
      </p>
    </div>
  );
}
