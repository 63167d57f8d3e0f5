import { useEffect, useState } from 'react';
import type { CellFault, CellNote, PaneHost } from './host.ts';

/** The line at the foot of the pane: which cell is selected and, if it ends in an error, why; else what to look at in its row. */
export function SelectedCell({ host }: { readonly host: PaneHost }) {
  const [address, setAddress] = useState<string | undefined>();
  const [fault, setFault] = useState<CellFault | undefined>();
  const [note, setNote] = useState<CellNote | undefined>();
  useEffect(() => {
    // Answers may arrive out of order: only the latest one counts.
    let latest = 0;
    async function look() {
      latest += 1;
      const mine = latest;
      try {
        const at = await host.selectedAddress();
        const found = at === undefined ? undefined : await host.faultAt?.(at);
        const noted = at === undefined || found !== undefined ? undefined : await host.noteAt?.(at);
        if (mine !== latest) return;
        setAddress(at);
        setFault(found);
        setNote(noted);
      } catch {
        if (mine === latest) setAddress(undefined);
      }
    }
    void look();
    const stop = host.onSelection(() => void look());
    return () => {
      latest = -1;
      stop();
    };
  }, [host]);
  return (
    <div className="nw-selected" role="status" aria-label="Selected cell">
      <p>
        {address === undefined ? 'No cell selected' : <strong>{address}</strong>}{' '}
        {fault !== undefined && <span className="nw-error">{fault.code}</span>}
        <span className="nw-quiet nw-host">{host.name}</span>
      </p>
      {fault !== undefined && <p>{fault.message}</p>}
      {note !== undefined && <p>{note.message}</p>}
    </div>
  );
}
