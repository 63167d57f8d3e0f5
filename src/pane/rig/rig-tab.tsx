import { useDeferredValue, useId, useMemo, useRef, useState } from 'react';
import { Fault } from '../../faults/issue.ts';
import { issueWords } from '../../faults/words.ts';
import type { CellRange } from '../../tables/cells.ts';
import { scaleFromSI } from '../../units/quantity.ts';
import type { PaneHost } from '../host.ts';
import { useTask } from '../task.ts';
import { RigDrawing, summary } from './drawing.tsx';
import { conditionsOf, drawnRig, rigNames } from './drawn-rig.ts';
import { HATCHING_WORDS } from './hatching.tsx';
import { notesOfRig } from './notes-of-rig.ts';
import { OwnFigures } from './own-figures.tsx';
import { fileName, keepFile, pngOf, svgText } from './picture.ts';
import { rigAt } from './rig-at.ts';
import { ShareTable } from './share-table.tsx';
import { useRigTables } from './use-workbook.ts';

/** A rig of the workbook as a drawing to scale, with the share of the loss of each part at one pressure. */
export function RigTab({ host }: { readonly host: PaneHost }) {
  const [partsName, setPartsName] = useState('Parts');
  const [conditionsName, setConditionsName] = useState('Conditions');
  const [picked, setPicked] = useState<string | undefined>();
  const [follows, setFollows] = useState(true);
  const [typed, setTyped] = useState('');
  const id = useId();
  const { looked, parts, conditions, row } = useRigTables(host, partsName.trim(), conditionsName.trim());
  const known = useMemo(() => namesIn(parts?.cells), [parts]);
  const selected = useMemo(
    () => (parts === undefined ? undefined : rigAt(parts, row, known.names)),
    [parts, row, known],
  );
  // A row without a rig leaves the drawing as it was.
  const lastFollowed = useRef<string | undefined>(undefined);
  if (selected !== undefined) lastFollowed.current = selected;
  const wanted = follows ? lastFollowed.current : picked;
  const name = wanted !== undefined && known.names.includes(wanted) ? wanted : known.names[0];
  const pressure = useDeferredValue(typed.trim());
  const given = useMemo(() => conditionsOf(conditions?.cells), [conditions]);
  const at = pressure === '' ? pressureText(given.target) : /^[\d.]+$/.test(pressure) ? `${pressure} Pa` : pressure;
  const made = useMemo(() => {
    if (parts === undefined || name === undefined) return undefined;
    const shown = pressure === '' ? given.target : pressure;
    return drawnRig(parts.cells, name, shown, conditions?.cells);
  }, [parts, name, pressure, given, conditions]);
  const own = useMemo(
    () => (parts === undefined || name === undefined ? [] : notesOfRig(parts, name, known.names)),
    [parts, name, known],
  );
  const drawing = useRef<SVGSVGElement | null>(null);

  return (
    <>
      <label className="nw-field" htmlFor={`${id}-rig`}>
        <span className="nw-field-name">Rig</span>
        <select
          id={`${id}-rig`}
          value={name ?? ''}
          disabled={known.names.length === 0}
          onChange={(event) => {
            setPicked(event.target.value);
            setFollows(false);
          }}
        >
          {known.names.map((rig) => (
            <option key={rig}>{rig}</option>
          ))}
        </select>
      </label>
      <label className="nw-check">
        <input
          type="checkbox"
          checked={follows}
          onChange={(event) => {
            setPicked(name);
            setFollows(event.target.checked);
          }}
        />
        Follow the selected row
      </label>
      <label className="nw-field" htmlFor={`${id}-pressure`}>
        <span className="nw-field-name">Pressure at the system, in Pa or with a unit; blank is the target</span>
        <input
          id={`${id}-pressure`}
          type="text"
          value={typed}
          placeholder={pressureText(given.target)}
          autoComplete="off"
          spellCheck={false}
          onChange={(event) => setTyped(event.target.value)}
        />
      </label>
      <p className="nw-outcome" role="status" aria-label="Rig drawn">
        {said()}
      </p>
      {made !== undefined && 'rig' in made && (
        <>
          {/* Scrolls by itself where large text makes it wider than the pane. */}
          {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be within reach of the keyboard */}
          <section className="nw-rig-frame" aria-label="Drawing of the rig" tabIndex={0}>
            <RigDrawing
              rig={made.rig}
              units={given.reportUnits}
              pressure={at}
              onElement={(element) => {
                drawing.current = element;
              }}
            />
          </section>
          <p className="nw-quiet">{HATCHING_WORDS}</p>
          <OwnFigures host={host} notes={own} />
          <Keep name={made.rig.name} drawing={() => drawing.current} />
          <ShareTable rig={made.rig} units={given.reportUnits} />
        </>
      )}
      <details className="nw-more">
        <summary>Tables that are read</summary>
        <TableName label="Parts" value={partsName} onChange={setPartsName} />
        <TableName label="Conditions" value={conditionsName} onChange={setConditionsName} />
      </details>
    </>
  );

  function said(): string {
    if (!looked) return 'Looking for the parts table.';
    if (parts === undefined)
      return `This workbook has no range ${partsName}. Add the template sheets, or name your own table below.`;
    if (known.fault !== undefined) return known.fault;
    if (made === undefined) return `${partsName} has no rig that begins with a pump.`;
    return 'fault' in made ? made.fault : summary(made.rig, at);
  }
}

function TableName(props: {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
}) {
  const id = useId();
  return (
    <label className="nw-field" htmlFor={id}>
      <span className="nw-field-name">{props.label}: a defined name, or a range such as Sheet1!A1:H20</span>
      <input
        id={id}
        type="text"
        value={props.value}
        autoComplete="off"
        spellCheck={false}
        onChange={(event) => props.onChange(event.target.value)}
      />
    </label>
  );
}

/** Buttons that take the drawing out of the pane. */
function Keep({ name, drawing }: { readonly name: string; readonly drawing: () => SVGSVGElement | null }) {
  const task = useTask();
  function take(work: (element: SVGSVGElement) => Promise<string>): void {
    task.run(async () => {
      const element = drawing();
      if (element === null) throw new Error('there is no drawing');
      return work(element);
    });
  }
  const svgBlob = (element: SVGSVGElement) => new Blob([svgText(element)], { type: 'image/svg+xml' });
  const actions: readonly (readonly [string, (element: SVGSVGElement) => Promise<string>])[] = [
    [
      'Save SVG',
      async (element) => {
        keepFile(svgBlob(element), fileName(name, 'svg'));
        return `Saved ${fileName(name, 'svg')}.`;
      },
    ],
    [
      'Save PNG',
      async (element) => {
        keepFile(await pngOf(element), fileName(name, 'png'));
        return `Saved ${fileName(name, 'png')}.`;
      },
    ],
    [
      'Copy SVG',
      async (element) => {
        await navigator.clipboard.writeText(svgText(element));
        return 'Copied the drawing as SVG text.';
      },
    ],
    [
      'Copy PNG',
      async (element) => {
        // The promise goes in whole: some browsers let a page write only in the turn of the click.
        await navigator.clipboard.write([new ClipboardItem({ 'image/png': pngOf(element) })]);
        return 'Copied the drawing as a picture.';
      },
    ],
  ];
  return (
    <>
      <div className="nw-buttons">
        {actions.map(([label, work]) => (
          <button key={label} type="button" className="nw-button" aria-disabled={task.busy} onClick={() => take(work)}>
            {label}
          </button>
        ))}
      </div>
      <p className="nw-outcome" role="status" aria-label="Picture">
        {task.said}
      </p>
    </>
  );
}

function namesIn(cells: CellRange | undefined): { readonly names: readonly string[]; readonly fault?: string } {
  if (cells === undefined) return { names: [] };
  try {
    return { names: rigNames(cells) };
  } catch (error) {
    return { names: [], fault: error instanceof Fault ? issueWords(error.issue, error.place) : String(error) };
  }
}

/** 66.7 Pa (500 micron) */
function pressureText(pa: number): string {
  const micron = scaleFromSI('micron', 'pressure')(pa);
  const short = (value: number) => String(Number(value.toPrecision(3)));
  return `${short(pa)} Pa (${short(micron)} micron)`;
}
