import { cautionsFor } from '../../src/tables/library/cautions.ts';
import { account, type Comparison, same } from './account.ts';
import type { ReferenceRow } from './rows.ts';

const BASIS_WORDS: ReadonlyMap<string, string> = new Map([
  ['published', 'published'],
  ['from-memory', 'from memory'],
  ['common-practice-no-source', 'common practice, no source'],
]);

function caution(row: ReferenceRow): Comparison[] {
  const { activity = '', caution: text = '', why = '', severity = '', applies_to: appliesTo = '' } = row.cells;
  const shown = cautionsFor(activity).find(({ id }) => id === row.id);
  return [
    same(shown?.text ?? 'not shown', text, 'text'),
    same(shown?.why ?? '', why, 'why'),
    same(shown?.step ?? '', activity, 'step'),
    same(shown?.severity ?? '', severity, 'severity'),
    same(shown?.appliesTo ?? '', appliesTo, 'applies to'),
    same(shown?.basis ?? '', BASIS_WORDS.get(row.basis) ?? row.basis, 'basis'),
  ];
}

/** Every caution of the file is shown for its step, word for word. */
export const cautions = account('cautions', [[/./, caution]]);
