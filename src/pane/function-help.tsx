import { useId, useState } from 'react';
import type { CellFunction, Parameter } from '../functions/define.ts';
import { callText, signature } from './formula.ts';
import type { PaneHost } from './host.ts';
import { localFormula } from './separators.ts';
import { useTask } from './task.ts';

/** Help on one function: a field for each argument, the formula as it grows, examples, limits and sources. */
export function FunctionHelp({ host, fn }: { readonly host: PaneHost; readonly fn: CellFunction }) {
  const parameters = Object.entries(fn.parameters);
  const [typed, setTyped] = useState<readonly string[]>(() => parameters.map(() => ''));
  const task = useTask();
  const formula = callText(fn, typed);
  const missing = parameters.filter(([, parameter], i) => !parameter.optional && (typed[i] ?? '').trim() === '');

  function insert(text: string) {
    task.run(async () => {
      await host.insertFormula(text);
      const address = await host.selectedAddress();
      return address === undefined ? 'Inserted.' : `Inserted at ${address}.`;
    });
  }

  return (
    <div className="nw-help">
      <p className="nw-code">{signature(fn)}</p>
      <p className="nw-quiet">Gives: {resultText(fn)}</p>
      <p>
        <a href={`docs/reference/${fn.id}.html`} target="_blank" rel="noopener" aria-label={`Help on ${fn.id}`}>
          Help
        </a>
      </p>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          insert(formula);
        }}
      >
        {parameters.map(([name, parameter], i) => (
          <Argument
            key={name}
            name={name}
            parameter={parameter}
            value={typed[i] ?? ''}
            onChange={(value) => setTyped(typed.map((old, k) => (k === i ? value : old)))}
          />
        ))}
        <output className="nw-code nw-preview" aria-label="Formula">
          {localFormula(formula, host.separators)}
        </output>
        <button type="submit" className="nw-button nw-primary" aria-disabled={task.busy} disabled={missing.length > 0}>
          Insert at the selected cell
        </button>
        {missing.length > 0 && (
          <p className="nw-quiet">Still needed: {missing.map(([name]) => name).join(', ')}. A cell or range will do.</p>
        )}
      </form>
      {fn.examples.length > 0 && (
        <>
          <h3>Examples</h3>
          <ul className="nw-examples">
            {fn.examples.map((example) => (
              <li key={example.formula} className="nw-example">
                <p className="nw-code">{localFormula(example.formula, host.separators)}</p>
                <p className="nw-quiet">{example.shows}</p>
                <button
                  type="button"
                  className="nw-button"
                  aria-disabled={task.busy}
                  aria-label={`Insert example ${example.formula}`}
                  onClick={() => insert(example.formula)}
                >
                  Insert example
                </button>
              </li>
            ))}
          </ul>
        </>
      )}
      <Lines title="Notes" lines={fn.notes} />
      <Lines title="Sources" lines={fn.sources} />
      <p className="nw-outcome" role="status">
        {task.said}
      </p>
    </div>
  );
}

function Argument(props: {
  readonly name: string;
  readonly parameter: Parameter<unknown>;
  readonly value: string;
  readonly onChange: (value: string) => void;
}) {
  const { name, parameter } = props;
  const id = useId();
  const choices = parameter.choices ?? [];
  return (
    <div className="nw-argument">
      <label htmlFor={id}>
        <span className="nw-name">{name}</span>
        {parameter.optional && <span className="nw-quiet"> (optional)</span>}
        {parameter.unit !== undefined && <span className="nw-quiet"> in {parameter.unit}, or with a unit</span>}
      </label>
      <input
        id={id}
        type="text"
        value={props.value}
        autoComplete="off"
        spellCheck={false}
        aria-describedby={`${id}-about`}
        list={choices.length > 0 ? `${id}-choices` : undefined}
        onChange={(event) => props.onChange(event.target.value)}
      />
      {choices.length > 0 && (
        <datalist id={`${id}-choices`}>
          {choices.map((choice) => (
            <option key={choice} value={choice} />
          ))}
        </datalist>
      )}
      <p id={`${id}-about`} className="nw-quiet">
        {parameter.description}
      </p>
    </div>
  );
}

function Lines({ title, lines }: { readonly title: string; readonly lines: readonly string[] | undefined }) {
  if (lines === undefined || lines.length === 0) return null;
  return (
    <>
      <h3>{title}</h3>
      <ul className="nw-lines">
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </>
  );
}

function resultText(fn: CellFunction): string {
  const { result } = fn;
  return result.kind === 'number' && result.unit !== '' ? `${result.description} (${result.unit})` : result.description;
}
