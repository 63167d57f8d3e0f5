import { useId, useState } from 'react';
import type { Caution } from '../tables/library/caution-notes.ts';
import { cautionSteps, cautionsFor, refrigerantClasses } from '../tables/library/cautions.ts';
import { originOf, reasonOf } from './caution-words.ts';

const SEVERITY = { danger: 'Danger', warning: 'Warning', notice: 'Notice' } as const;
const FIRST_STEP = 'evacuation';

/** The caution notes of the step in hand, for one refrigerant or for all. */
export function CautionNotes() {
  const [step, setStep] = useState<string>(FIRST_STEP);
  const [refrigerant, setRefrigerant] = useState('');
  const id = useId();
  const notes = cautionsFor(step, refrigerant === '' ? undefined : refrigerant);
  return (
    <>
      <p className="nw-first">Local codes and licensed practice come first.</p>
      <div className="nw-pair">
        <label className="nw-field" htmlFor={`${id}-step`}>
          <span className="nw-field-name">Step in hand</span>
          <select id={`${id}-step`} value={step} onChange={(event) => setStep(event.target.value)}>
            {cautionSteps.map((name) => (
              <option key={name} value={name}>
                {name === 'all' ? 'every step' : name}
              </option>
            ))}
          </select>
        </label>
        <label className="nw-field" htmlFor={`${id}-refrigerant`}>
          <span className="nw-field-name">Refrigerant</span>
          <select id={`${id}-refrigerant`} value={refrigerant} onChange={(event) => setRefrigerant(event.target.value)}>
            <option value="">any</option>
            {[...refrigerantClasses].map(([name, safetyClass]) => (
              <option key={name} value={name}>{`${name} (${safetyClass})`}</option>
            ))}
          </select>
        </label>
      </div>
      <ul className="nw-notes" aria-label="Caution notes">
        {notes.map((note) => (
          <Note key={note.id} note={note} />
        ))}
      </ul>
    </>
  );
}

function Note({ note }: { readonly note: Caution }) {
  return (
    <li className={`nw-note nw-note-${note.severity}`}>
      <strong className="nw-severity">{SEVERITY[note.severity]}</strong>
      <p>{note.text}</p>
      <details>
        <summary className="nw-why">Why, and where it is from</summary>
        <p>{reasonOf(note)}</p>
        <p className="nw-quiet">{originOf(note)}</p>
      </details>
    </li>
  );
}
