import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** A reference value from outside the project. The files lie beside this one; `basis` says what may be cited. */
export interface ReferenceRow {
  readonly file: string;
  readonly id: string;
  readonly cells: Readonly<Record<string, string>>;
  readonly inputs: ReadonlyMap<string, string>;
  readonly value: string;
  readonly tolerance: string;
  readonly basis: string;
  readonly source: string;
}

/** RFC 4180 fields: quoted text may hold commas and doubled quotes. */
function parseCsv(text: string): string[][] {
  const rows: string[][] = [];
  let row: string[] = [];
  let field = '';
  let quoted = false;
  for (let i = 0; i < text.length; i++) {
    const c = text[i];
    if (quoted) {
      if (c === '"' && text[i + 1] === '"') {
        field += '"';
        i++;
      } else if (c === '"') quoted = false;
      else field += c;
    } else if (c === '"') quoted = true;
    else if (c === ',') {
      row.push(field);
      field = '';
    } else if (c === '\n') {
      row.push(field.replace(/\r$/, ''));
      rows.push(row);
      row = [];
      field = '';
    } else field += c;
  }
  if (field !== '' || row.length > 0) rows.push([...row, field]);
  return rows;
}

/** All rows of one reference file; a row without basis or source does not load. */
export function referenceRows(file: string): readonly ReferenceRow[] {
  const path = fileURLToPath(new URL(`./${file}.csv`, import.meta.url));
  const [header, ...rows] = parseCsv(readFileSync(path, 'utf8'));
  if (header === undefined) throw new Error(`${file}.csv is empty`);
  return rows.map((fields, index) => {
    const cells = Object.fromEntries(header.map((name, i) => [name, fields[i] ?? '']));
    const { basis = '', id = `${file} row ${index + 2}` } = cells;
    const source = cells.source ?? '';
    if (basis === '' || (source === '' && 'source' in cells)) throw new Error(`${file} ${id} has no basis or source`);
    const inputs = new Map(
      (cells.inputs ?? '').split(';').flatMap((pair) => {
        const at = pair.indexOf('=');
        return at < 0 ? [] : [[pair.slice(0, at).trim(), pair.slice(at + 1).trim()] as const];
      }),
    );
    return { file, id, cells, inputs, value: cells.value ?? '', tolerance: cells.tolerance ?? '', basis, source };
  });
}

/** How a row is cited beside a check, and printed when the check fails. */
export function cite(row: ReferenceRow): string {
  const basis =
    row.basis === 'from-memory'
      ? 'from memory'
      : row.basis === 'common-practice-no-source'
        ? 'common practice, no source'
        : row.basis;
  return `${row.file} ${row.id}: ${row.source} (${basis}), ${row.tolerance}`;
}

/** Largest deviation that the row's own tolerance allows from `value`; the first part is taken where several are given. */
export function allowance(row: ReferenceRow, value: number, part = 0): number {
  const text = row.tolerance.split(';')[part]?.trim() ?? '';
  if (text === 'exact') return Math.abs(value) * 1e-12;
  const match = /(rel|abs):\s*([0-9.eE+-]+)/.exec(text);
  if (match === null) throw new Error(`${row.file} ${row.id}: no numeric tolerance in "${row.tolerance}"`);
  return match[1] === 'rel' ? Math.abs(value) * Number(match[2]) : Number(match[2]);
}

/** Numeric input by key, e.g. `number(row, 'p1_Pa')`. */
export function numberOf(row: ReferenceRow, key: string): number {
  const text = row.inputs.get(key);
  const value = Number(text);
  if (text === undefined || Number.isNaN(value)) throw new Error(`${row.file} ${row.id} has no number ${key}`);
  return value;
}
