import { useEffect, useState } from 'react';
import type { CellFault, PaneHost } from './host.ts';

/** The line at the foot of the pane: which cell is selected and, if it ends in an error, why. */
export function SelectedCell({ host }: { readonly host: PaneHost }) {
  const [address, setAddress] = useState<string | undefined>();
  const [fault, setFault] = useState<CellFault | undefined>();
  useEffect(() => {
    // Answers may arrive out of order: only the latest one counts.
    let latest = 0;
    async function look() {
      latest += 1;
      const mine = latest;
      try {
        const at = await host.selectedAddress();
        const found = at === undefined ? undefined : await host.faultAt?.(at);
        if (mine !== latest) return;
        setAddress(at);
        setFault(found);
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
    </div>
  );
}
