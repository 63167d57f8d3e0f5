import { useId, useMemo, useState } from 'react';
import type { CellFunction } from '../functions/define.ts';
import { FunctionHelp } from './function-help.tsx';
import type { PaneHost } from './host.ts';
import { byGroup, searchFunctions } from './search.ts';

/** Every function by group, with a search; one at a time opens to its help. */
export function FunctionList({
  host,
  functions,
}: {
  readonly host: PaneHost;
  readonly functions: readonly CellFunction[];
}) {
  const [query, setQuery] = useState('');
  const [open, setOpen] = useState<string | undefined>();
  const id = useId();
  const found = useMemo(() => searchFunctions(functions, query), [functions, query]);
  return (
    <>
      <label className="nw-field" htmlFor={`${id}-search`}>
        <span className="nw-field-name">Search functions</span>
        <input
          id={`${id}-search`}
          type="search"
          value={query}
          autoComplete="off"
          spellCheck={false}
          onChange={(event) => setQuery(event.target.value)}
        />
      </label>
      <p className="nw-quiet nw-outcome" role="status">
        {found.length} of {functions.length} functions
      </p>
      {[...byGroup(found)].map(([group, members]) => (
        <div key={group} className="nw-group">
          <h2 id={`${id}-${group}`}>{group}</h2>
          <ul aria-labelledby={`${id}-${group}`}>
            {members.map((fn) => (
              <li key={fn.id} className="nw-item">
                <button
                  type="button"
                  className="nw-entry"
                  aria-expanded={open === fn.id}
                  onClick={() => setOpen(open === fn.id ? undefined : fn.id)}
                >
                  <span className="nw-name nw-entry-name">{fn.id}</span>
                  <span className="nw-summary">{fn.summary}</span>
                </button>
                {open === fn.id && <FunctionHelp host={host} fn={fn} />}
              </li>
            ))}
          </ul>
        </div>
      ))}
    </>
  );
}
