import type { CellNote, PaneHost } from './host.ts';
import type { Task } from './task.ts';

/** The button that writes what rids a sheet of a note. It stays once pressed, and says so: the focus is on it. */
export function MendButton(props: {
  readonly note: CellNote;
  readonly host: PaneHost;
  readonly task: Task;
  readonly mended: boolean;
  readonly onMended: () => void;
}) {
  const { note, host, task, mended, onMended } = props;
  if (note.mend === undefined) return null;
  const { label, cells } = note.mend;
  return (
    <button
      type="button"
      className="nw-button"
      aria-disabled={task.busy || mended}
      onClick={() => {
        if (mended) return;
        task.run(async () => {
          await host.put(cells);
          onMended();
          return `Written into ${cells.map(({ address }) => address).join(', ')}.`;
        });
      }}
    >
      {mended ? 'Done' : label}
    </button>
  );
}
