import { useEffect, useRef, useState } from 'react';
import type { CellFault, CellNote, PaneHost } from './host.ts';
import { KEPT_SHEET, type Restored } from './kept.ts';
import { MendButton } from './mend-button.tsx';
import { useTask } from './task.ts';

/** What the pane does with the workbook: check it, add the template's sheets, freeze, enter again. */
export function WorkbookTools({ host }: { readonly host: PaneHost }) {
  return (
    <>
      <Check host={host} />
      <Template host={host} />
      <Freeze host={host} />
      <Reenter host={host} />
    </>
  );
}

function Check({ host }: { readonly host: PaneHost }) {
  const task = useTask();
  const [faults, setFaults] = useState<readonly CellFault[]>([]);
  const [notes, setNotes] = useState<readonly CellNote[]>([]);
  const [mended, setMended] = useState<readonly CellNote[]>([]);
  function check(scope: 'sheet' | 'workbook') {
    task.run(async () => {
      const found = await host.faults(scope);
      const noted = (await host.notes?.(scope)) ?? [];
      setFaults(found);
      setNotes(noted);
      const more = noted.length === 0 ? '' : ` ${noted.length === 1 ? '1 note' : `${noted.length} notes`} below.`;
      const where = scope === 'sheet' ? 'this sheet' : 'this workbook';
      if (found.length === 0) return `No cell of ${where} ends in an error.${more}`;
      const repeats = found.filter((fault) => fault.repeats).length;
      const last =
        repeats === 0
          ? ''
          : ` ${cells(repeats)} of them, last in the list, only ${repeats === 1 ? 'holds' : 'hold'} the error of another cell.`;
      return `${cells(found.length)} of ${where} with a fault.${last}${more}`;
    });
  }
  const go = (address: string) => task.run(async () => host.goTo(address).then(() => `At ${address}.`));
  return (
    <div className="nw-tool">
      <h2>Check</h2>
      <p className="nw-quiet">Lists the cells that end in an error, and says in words what is wrong.</p>
      <div className="nw-buttons">
        <button type="button" className="nw-button" aria-disabled={task.busy} onClick={() => check('sheet')}>
          Check this sheet
        </button>
        <button type="button" className="nw-button" aria-disabled={task.busy} onClick={() => check('workbook')}>
          Check the workbook
        </button>
      </div>
      <p className="nw-outcome" role="status">
        {task.said}
      </p>
      {faults.length > 0 && (
        <ul className="nw-faults" aria-label="Faults found">
          {faults.map((fault) => (
            <li key={fault.address} className="nw-fault">
              <GoTo address={fault.address} go={go} /> <span className="nw-error">{fault.code}</span>
              <p>{fault.message}</p>
              {fault.about !== undefined && (
                <p>
                  On the sheet: <GoTo address={fault.about} go={go} />
                </p>
              )}
              <p className="nw-code">{fault.formula}</p>
            </li>
          ))}
        </ul>
      )}
      {notes.length > 0 && (
        <ul className="nw-faults" aria-label="Notes">
          {notes.map((note) => (
            <li key={note.address} className="nw-fault">
              <GoTo address={note.address} go={go} />
              <p>{note.message}</p>
              <MendButton
                note={note}
                host={host}
                task={task}
                mended={mended.includes(note)}
                onMended={() => setMended((done) => [...done, note])}
              />
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}

function GoTo({ address, go }: { readonly address: string; go(address: string): void }) {
  return (
    <button type="button" className="nw-link" onClick={() => go(address)}>
      {address}
    </button>
  );
}

function Template({ host }: { readonly host: PaneHost }) {
  const task = useTask();
  return (
    <div className="nw-tool">
      <h2>Template</h2>
      <p className="nw-quiet">
        Adds the sheets of the template workbook to this one: parts, pipe runs, units, results. Sheets that you have
        stay as they are.
      </p>
      <button
        type="button"
        className="nw-button"
        aria-disabled={task.busy}
        onClick={() =>
          task.run(async () => {
            const { added, skipped } = await host.addTemplate();
            const kept = skipped.length > 0 ? ` Already there and left alone: ${skipped.join(', ')}.` : '';
            return `${added.length > 0 ? `Added: ${added.join(', ')}.` : 'Nothing added.'}${kept}`;
          })
        }
      >
        Add the template sheets
      </button>
      <p className="nw-outcome" role="status">
        {task.said}
      </p>
    </div>
  );
}

function Freeze({ host }: { readonly host: PaneHost }) {
  const task = useTask();
  const [asking, setAsking] = useState(false);
  const ask = useRef<HTMLButtonElement>(null);
  const keep = useRef<HTMLButtonElement>(null);
  const asked = useRef(false);
  // The question takes the place of the button: the focus goes with it, to the safe answer, and comes back.
  useEffect(() => {
    if (asking) keep.current?.focus();
    else if (asked.current) ask.current?.focus();
    asked.current = asking;
  }, [asking]);
  return (
    <div className="nw-tool">
      <h2>Freeze</h2>
      <p className="nw-quiet">
        Replaces the Narrows formulas on this sheet by the values that they show now, for people without the functions.
        The formulas are kept on a sheet of their own, “{KEPT_SHEET}”, and can be put back.
      </p>
      {asking ? (
        <fieldset
          className="nw-ask"
          onKeyDown={(event) => {
            if (event.key === 'Escape') setAsking(false);
          }}
        >
          <legend>The values on this sheet will no longer follow its inputs. Freeze?</legend>
          <div className="nw-buttons">
            <button
              type="button"
              className="nw-button nw-primary"
              onClick={() => {
                setAsking(false);
                task.run(async () => {
                  const count = await host.freeze();
                  return `${formulas(count)} replaced by values.${count > 0 ? ` Kept on ${KEPT_SHEET}.` : ''}`;
                });
              }}
            >
              Freeze now
            </button>
            <button ref={keep} type="button" className="nw-button" onClick={() => setAsking(false)}>
              Keep the formulas
            </button>
          </div>
        </fieldset>
      ) : (
        <div className="nw-buttons">
          <button
            ref={ask}
            type="button"
            className="nw-button"
            aria-disabled={task.busy}
            onClick={() => setAsking(true)}
          >
            Freeze this sheet to values
          </button>
          <button
            type="button"
            className="nw-button"
            aria-disabled={task.busy}
            onClick={() =>
              task.run(async () => {
                return restoredWords(await host.restore());
              })
            }
          >
            Put the formulas back
          </button>
        </div>
      )}
      <p className="nw-outcome" role="status">
        {task.said}
      </p>
    </div>
  );
}

function Reenter({ host }: { readonly host: PaneHost }) {
  const task = useTask();
  return (
    <div className="nw-tool">
      <h2>Name errors</h2>
      <p className="nw-quiet">
        A formula that was calculated before the functions were ready shows #NAME? until it is entered again.
      </p>
      <button
        type="button"
        className="nw-button"
        aria-disabled={task.busy}
        onClick={() => task.run(async () => `${formulas(await host.reenter())} entered again.`)}
      >
        Enter them again
      </button>
      <p className="nw-outcome" role="status">
        {task.said}
      </p>
    </div>
  );
}

function cells(count: number): string {
  return count === 1 ? '1 cell' : `${count} cells`;
}

function formulas(count: number): string {
  return count === 1 ? '1 formula' : `${count} formulas`;
}

/** Of formulas that were left alone, so many are named. */
const MOST_NAMED = 5;

function restoredWords({ count, left }: Restored): string {
  if (count === 0 && left.length === 0) return 'No formulas are kept of this sheet.';
  const back = `${count === 0 ? 'No formulas' : formulas(count)} put back.`;
  if (left.length === 0) return back;
  const named = left.slice(0, MOST_NAMED).map(({ cell, why }) => `${cell} (${why})`);
  const more = left.length > MOST_NAMED ? `, and ${left.length - MOST_NAMED} more` : '';
  return `${back} Left as they are, and kept on ${KEPT_SHEET}: ${named.join(', ')}${more}.`;
}
