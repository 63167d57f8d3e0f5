/** A sheet's part cut into the elements that stand in it side by side, with the cells as one piece. */

/** The order in which they have to stand (ISO/IEC 29500-1 §18.3.1.99). */
const ORDER = [
  'sheetPr',
  'dimension',
  'sheetViews',
  'sheetFormatPr',
  'cols',
  'sheetData',
  'sheetCalcPr',
  'sheetProtection',
  'protectedRanges',
  'scenarios',
  'autoFilter',
  'sortState',
  'dataConsolidate',
  'customSheetViews',
  'mergeCells',
  'phoneticPr',
  'conditionalFormatting',
  'dataValidations',
  'hyperlinks',
  'printOptions',
  'pageMargins',
  'pageSetup',
  'headerFooter',
  'rowBreaks',
  'colBreaks',
  'customProperties',
  'cellWatches',
  'ignoredErrors',
  'smartTags',
  'drawing',
  'legacyDrawing',
  'legacyDrawingHF',
  'drawingHF',
  'picture',
  'oleObjects',
  'controls',
  'webPublishItems',
  'tableParts',
  'extLst',
] as const;

export interface SheetPieces {
  /** what stands before the first element: the declaration and the start tag of the sheet */
  readonly open: string;
  /** elements by their names without a prefix, those of one name one behind the other */
  readonly elements: Map<string, string>;
}

const ROOT = /<((?:\w+:)?)worksheet(?=[\s>])(?:"[^"]*"|'[^']*'|[^>"'])*>/;
const DATA = /<((?:\w+:)?)sheetData(?=[\s/>])[^>]*?(\/?)>/;

/** The pieces of a sheet's part, under names without the prefix of the sheet's own; undefined when it is no such part. */
export function sheetPieces(xml: string): SheetPieces | undefined {
  const root = ROOT.exec(xml);
  const data = DATA.exec(xml);
  if (root === null || data === null) return undefined;
  const prefix = root[1] ?? '';
  const start = root.index + root[0].length;
  const behind = data.index + data[0].length;
  const end = data[2] === '/' ? behind : xml.indexOf('>', xml.indexOf(`</${prefix}sheetData`, behind)) + 1;
  const elements = new Map<string, string>();
  const take = (text: string): void => {
    for (const [name, piece] of sideBySide(unprefixed(text, prefix)))
      elements.set(name, (elements.get(name) ?? '') + piece);
  };
  take(xml.slice(start, data.index));
  elements.set('sheetData', xml.slice(data.index, end));
  take(xml.slice(end, xml.lastIndexOf(`</${prefix}worksheet`)));
  return { open: xml.slice(0, start), elements };
}

export function joinedPieces({ open, elements }: SheetPieces): string {
  return `${open}${ORDER.map((name) => elements.get(name) ?? '').join('')}</worksheet>`;
}

export function unprefixed(xml: string, prefix: string): string {
  return prefix === '' ? xml : xml.replaceAll(`</${prefix}`, '</').replaceAll(`<${prefix}`, '<');
}

const TAG = /<(\/?)([\w:.-]+)(?:"[^"]*"|'[^']*'|[^>"'])*>/g;

/** Elements that stand side by side in a piece of XML, with all that is in them. */
export function sideBySide(xml: string): [name: string, text: string][] {
  const found: [string, string][] = [];
  let depth = 0;
  let from = 0;
  for (const tag of xml.matchAll(TAG)) {
    const [text, closes, name = ''] = tag;
    if (depth === 0) from = tag.index;
    if (closes === '/') depth--;
    else if (!text.endsWith('/>')) depth++;
    if (depth === 0) found.push([depthName(xml, from, name), xml.slice(from, tag.index + text.length)]);
  }
  return found;
}

function depthName(xml: string, from: number, fallback: string): string {
  return /^<([\w:.-]+)/.exec(xml.slice(from, from + 100))?.[1] ?? fallback;
}
