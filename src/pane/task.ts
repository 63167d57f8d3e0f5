import { useState } from 'react';

export interface Task {
  readonly busy: boolean;
  /** what the last run said, for a status line */
  readonly said: string;
  /** Nothing happens while another run goes on. Buttons say so by aria-disabled: a disabled one would lose the focus. */
  run(work: () => Promise<string>): void;
}

/** One thing the host is asked to do at a time, with its outcome or its failure as a line of text. */
export function useTask(): Task {
  const [busy, setBusy] = useState(false);
  const [said, setSaid] = useState('');
  return {
    busy,
    said,
    run(work) {
      if (busy) return;
      setBusy(true);
      setSaid('');
      work().then(
        (text) => {
          setSaid(text);
          setBusy(false);
        },
        (error: unknown) => {
          setSaid(`That did not work: ${error instanceof Error ? error.message : String(error)}`);
          setBusy(false);
        },
      );
    },
  };
}
