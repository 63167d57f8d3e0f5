import type { DataValidation, Sheet as FileSheet } from 'hucre';
import { attributes, unescapeXml } from './xml.ts';

/** In the parts of newer programs ranges and formulas are elements, not attributes. */
const RANGE = /<(?:\w+:)?sqref\s*>([^<]*)</;
const FORMULAS = { formula1: formula('formula1'), formula2: formula('formula2') };

function formula(name: string): RegExp {
  return new RegExp(`<(?:\\w+:)?${name}\\s*>\\s*<(?:\\w+:)?f\\s*>([^<]*)<`);
}

const KINDS: ReadonlySet<string> = new Set<DataValidation['type']>([
  'list',
  'whole',
  'decimal',
  'date',
  'time',
  'textLength',
  'custom',
]);

/**
 * Lists and limits of input that refer to other sheets: newer spreadsheet programs keep them apart from the others, in an
 * extension of the sheet (MS-XLSX §2.6.16), though they may stand among them.
 *
 * @param xml the sheet's part
 */
export function newerValidations(xml: string): DataValidation[] {
  const found: DataValidation[] = [];
  const start = /<(\w+:)dataValidation(?=[\s>])[^<>]*>/g;
  for (let tag = start.exec(xml); tag !== null; tag = start.exec(xml)) {
    const end = xml.indexOf(`</${tag[1]}dataValidation`, start.lastIndex);
    if (end < 0) break;
    const inside = xml.slice(start.lastIndex, end);
    start.lastIndex = end;
    const range = RANGE.exec(inside)?.[1]?.trim();
    const given = attributes(tag[0]);
    const type = given.get('type') ?? '';
    if (!range || !KINDS.has(type)) continue;
    const flag = (name: string): boolean => /^(?:1|true)$/.test(given.get(name) ?? '');
    const rule: DataValidation = { type: type as DataValidation['type'], range: unescapeXml(range) };
    for (const name of ['formula1', 'formula2'] as const) {
      const text = FORMULAS[name].exec(inside)?.[1];
      if (text !== undefined) rule[name] = unescapeXml(text);
    }
    for (const name of ['allowBlank', 'showInputMessage', 'showErrorMessage'] as const) rule[name] = flag(name);
    for (const [name, as] of TEXTS) {
      const text = given.get(name);
      if (text !== undefined) Object.assign(rule, { [as]: text });
    }
    found.push(rule);
  }
  return found;
}

const TEXTS = [
  ['operator', 'operator'],
  ['errorStyle', 'errorStyle'],
  ['promptTitle', 'inputTitle'],
  ['prompt', 'inputMessage'],
  ['errorTitle', 'errorTitle'],
  ['error', 'errorMessage'],
] as const;

/** The sheet with those of its part among its own; changed in place, since the file keeps more beside it. */
export function withNewerValidations(sheet: FileSheet, xml: string): FileSheet {
  const newer = newerValidations(xml);
  if (newer.length > 0) sheet.dataValidations = [...(sheet.dataValidations ?? []), ...newer];
  return sheet;
}
