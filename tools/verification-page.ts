import { readFileSync } from 'node:fs';
import { tradeFactRows } from '../src/tables/library/trade-facts.ts';
import { type Measured, measured } from '../tests/agreement/agreements.ts';
import { agrees, type Comparison, type RowRecord, recordsOf } from '../tests/references/account.ts';
import { accounts } from '../tests/references/accounts.ts';

/** docs/verification.md from what the tests compare: nothing on the page is typed by hand but the words around the tables. */

/** How a basis is shown: only what is published may be called so. */
const BASIS: ReadonlyMap<string, string> = new Map([
  ['published', 'published'],
  ['computed-from-published-formula', 'recomputed from a published formula'],
  ['computed', 'second implementation of our own'],
  ['own-simulation', 'own rough simulation, not published'],
  ['from-memory', 'from memory'],
  ['common-practice-no-source', 'common practice, no source'],
]);

const TITLES: ReadonlyMap<string, string> = new Map([
  ['tube_rarefied', 'Long tubes in every regime'],
  ['tube_transmission', 'Molecular transmission of tubes'],
  ['orifice_rarefied', 'Thin orifices and short tubes'],
  ['fanno_choked', 'Friction, choking, worked examples of gas flow'],
  ['valve_sizing', 'Valves and sonic conductance'],
  ['gases', 'Gases'],
  ['water', 'Water'],
  ['pumpdown', 'Pump-down, conductances in series, boil-off'],
  ['refrigerants', 'Refrigerants'],
  ['recovery', 'Recovery'],
  ['charging', 'Charging'],
  ['tubes_copper', 'Copper tube, ports, hoses, cores'],
  ['units', 'Units'],
  ['practice', 'Practice: levels, recovery rules, cylinders, pumps'],
  ['cautions', 'Cautions'],
]);

function basisOf(basis: string): string {
  return BASIS.get(basis) ?? basis;
}

const LONGEST = 90;

/** Text for a cell of a table in Markdown. */
function cell(text: string): string {
  const short = text.length > LONGEST ? `${text.slice(0, LONGEST)}…` : text;
  return short.replace(/\s+/gu, ' ').replace(/[\\|<>*_`[\]]/gu, (sign) => `\\${sign}`);
}

/** Five digits: what is beyond may differ from machine to machine. */
function figure(value: number | string): string {
  if (typeof value === 'string') return cell(value);
  if (value === 0) return '0';
  const size = Math.abs(value);
  if (size >= 1e5 || size < 1e-3) return value.toExponential(3);
  return String(Number(value.toPrecision(5)));
}

/** How near the end of what is allowed: 1 at the end. */
function strain({ ours, low, high }: Comparison): number {
  if (typeof ours === 'string' || high >= 1e300) return 0;
  const half = 0.5 * (high - low);
  return half > 0 ? Math.abs(ours - 0.5 * (high + low)) / half : 0;
}

function worst(comparisons: readonly Comparison[]): Comparison | undefined {
  const parted = comparisons.find((one) => !agrees(one));
  if (parted !== undefined) return parted;
  return comparisons.reduce<Comparison | undefined>(
    (best, one) => (best === undefined || strain(one) > strain(best) ? one : best),
    undefined,
  );
}

function ratio({ ours, theirs }: Comparison): string {
  if (typeof ours === 'string' || typeof theirs === 'string' || theirs === 0) return '';
  const value = ours / theirs;
  return Math.abs(value - 1) < 5e-8 ? '1' : value.toFixed(5);
}

function subject({ row }: RowRecord): string {
  const { quantity, item, inputs, activity, refrigerant, record, from, to, L_over_R: aspect } = row.cells;
  if (from !== undefined) return `${quantity}: ${from} in ${to}`;
  if (refrigerant !== undefined) return `${refrigerant} ${record} ${row.cells.t_C === '' ? '' : `${row.cells.t_C} C`}`;
  if (aspect !== undefined) return `L/R = ${aspect}`;
  if (activity !== undefined) return `${activity}: ${row.cells.why ?? ''}`;
  const size = row.cells.size_label;
  return [quantity ?? item ?? '', size ?? inputs ?? ''].filter((part) => part !== '').join('; ');
}

function tableOf(records: readonly RowRecord[]): string[] {
  const sources: string[] = [];
  const sourceOf = (source: string): string => {
    const known = sources.indexOf(source);
    return `[${known < 0 ? sources.push(source) : known + 1}]`;
  };
  const used = records.filter(({ reason }) => reason === '');
  const rows = used.map((record) => {
    const { row, comparisons } = record;
    const shown = worst(comparisons);
    if (shown === undefined) throw new Error(`${row.file} ${row.id} compares nothing`);
    const more = comparisons.length > 1 ? `worst of ${comparisons.length}` : '';
    const what = [shown.what, more].filter((part) => part !== '').join('; ');
    const cells = [
      row.id.replace(/^\S+ row /u, 'row '),
      cell(subject(record)),
      figure(shown.theirs),
      figure(shown.ours),
      ratio(shown),
      cell(what),
      cell(row.tolerance),
      basisOf(row.basis),
      sourceOf(row.source),
      comparisons.every(agrees) ? 'yes' : '**no**',
    ];
    return `| ${cells.join(' | ')} |`;
  });
  const out = [
    '| row | what | theirs | ours | ours / theirs | which figure | tolerance | basis | source | agrees |',
    '|---|---|---|---|---|---|---|---|---|---|',
    ...rows,
    '',
    ...sources.map((source, i) => `- [${i + 1}] ${source.replace(/[\\|<>*_`]/gu, (sign) => `\\${sign}`)}`),
    '',
  ];
  const left = records.filter(({ reason }) => reason !== '');
  if (left.length === 0) return out;
  const byReason = new Map<string, string[]>();
  for (const { row, reason } of left)
    byReason.set(reason, [...(byReason.get(reason) ?? []), row.id.replace(/^\S+ row /u, 'row ')]);
  return [
    ...out,
    'Rows that are not used, and why:',
    '',
    ...[...byReason].map(([reason, ids]) => `- ${ids.join(', ')}: ${reason}`),
    '',
  ];
}

function summary(all: readonly RowRecord[]): string[] {
  const bases = [...new Set(all.map(({ row }) => row.basis))].sort();
  const rows = [...BASIS.keys()]
    .filter((basis) => bases.includes(basis))
    .map((basis) => {
      const of = all.filter(({ row }) => row.basis === basis);
      const used = of.filter(({ reason }) => reason === '');
      const agreeing = used.filter(({ comparisons }) => comparisons.every(agrees));
      return `| ${basisOf(basis)} | ${of.length} | ${used.length} | ${agreeing.length} |`;
    });
  return ['| basis | rows | used | agree |', '|---|---|---|---|', ...rows, ''];
}

function agreementTable(all: readonly Measured[]): string[] {
  const percent = (part: number): string => `${(100 * part).toPrecision(2).replace(/e([+-]\d+)$/u, '·10^$1')} %`;
  const rows = all.map(({ what, method, shares, cases, largest, held }) => {
    const shown = largest < 1e-12 ? 'none' : percent(largest);
    return `| ${cell(what)} | ${method} | ${shares} | ${cases} | ${shown} | ${percent(held)} |`;
  });
  return [
    '| calculation | second method | in common | figures | largest difference | held to |',
    '|---|---|---|---|---|---|',
    ...rows,
    '',
  ];
}

function tradeTable(): string[] {
  const rows = tradeFactRows().map(
    ({ fact, theirs, ours, agrees: agreeing, why }) =>
      `| ${[fact, theirs, ours, agreeing ? 'yes' : 'no', why].map((text) => text.replaceAll('|', '\\|')).join(' | ')} |`,
  );
  return ['| fact | theirs | ours | agrees | why |', '|---|---|---|---|---|', ...rows, ''];
}

/** Headings of the method notes with the anchors that Markdown gives them. */
function limits(): string[] {
  const text = readFileSync(new URL('../docs/method.md', import.meta.url), 'utf8');
  return [...text.matchAll(/^## (.+)$/gmu)].map(([, title = '']) => {
    const anchor = title
      .toLowerCase()
      .replace(/[^\p{L}\p{N} -]/gu, '')
      .replaceAll(' ', '-');
    return `- [${title}](method.md#${anchor})`;
  });
}

/** `second`: the measured agreements where the caller has them already, for they take most of the time. */
export function verificationPage(second: readonly Measured[] = measured()): string {
  const files = accounts.map((of) => ({ of, records: recordsOf(of) }));
  const all = files.flatMap(({ records }) => records);
  const lines = [
    '# Verification',
    '',
    'What Narrows calculates beside values from outside. `npm run verify` writes this page from the comparisons that the tests assert; a',
    'test fails when it is stale. Where a row holds several figures, the one nearest to the end of its tolerance is shown. Only rows',
    'marked *published* had their source seen, some as quoted in a second one. The files lie in `tests/references`.',
    '',
    '## How much rests on what',
    '',
    ...summary(all),
    '## Second implementations',
    '',
    'The same calculation by another method, in the tests only. Each difference was measured when this page was made.',
    '',
    ...agreementTable(second),
    '## What the trade says of its gear',
    '',
    'Every figure here is common practice, no source; ours was computed when this page was made.',
    '',
    ...tradeTable(),
    '## Where the models stop holding',
    '',
    'Equations, choices and limits of each model are in the method notes:',
    '',
    ...limits(),
    '',
    ...files.flatMap(({ of, records }) => [
      `## ${TITLES.get(of.file) ?? of.file} (${of.file}.csv)`,
      '',
      ...tableOf(records),
    ]),
  ];
  return `${lines.join('\n').trimEnd()}\n`;
}
