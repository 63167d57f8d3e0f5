import { parseBlock } from './address.ts';
import { editsOf, GONE, movedBlocks, movedRange, movedRanges, type SheetEdit } from './edits.ts';
import { movedColumns } from './moved-columns.ts';
import { movedFormula, movedRuleFormula } from './moved-formula.ts';
import { joinedPieces, sheetPieces, sideBySide } from './sheet-pieces.ts';
import { attributes, escapeXml, startTags, unescapeXml } from './xml.ts';

export interface Carrying {
  /** the sheet's name in the file before */
  readonly sheet: string;
  readonly edits: readonly SheetEdit[];
  /** place of the first format of conditions of the file before among those of the file made anew */
  readonly firstFormat: number;
}

type Shifts = ReturnType<typeof editsOf>;

/**
 * The part of a sheet that was made anew, with what the page does not show taken over from the file before word by word: the
 * writer of workbooks knows but a part of it. Ranges and formulas are brought along with the edits.
 *
 * @param written the part that was made anew
 * @param before the sheet's part in the file before
 */
export function carried(written: string, before: string, carrying: Carrying): string {
  const now = sheetPieces(written);
  const was = sheetPieces(before);
  if (now === undefined || was === undefined) return written;
  const { sheet, edits } = carrying;
  const own = editsOf(edits, sheet);
  const piece = (name: string): string => was.elements.get(name) ?? '';
  const put = (name: string, text: string): void => void now.elements.set(name, text);
  for (const name of AS_IT_IS) if (piece(name) !== '') put(name, piece(name));
  for (const name of WITH_RANGES) put(name, inPlaces(piece(name), own));
  if (piece('pageSetup') !== '') put('pageSetup', piece('pageSetup').replace(/\s[\w.-]+:id="[^"]*"/, ''));
  put('sheetViews', viewOf(now.elements.get('sheetViews') ?? '', piece('sheetViews')));
  put('autoFilter', withFormats(movedFilter(piece('autoFilter'), own), carrying.firstFormat));
  put('conditionalFormatting', movedFormats(piece('conditionalFormatting'), carrying));
  put('dataValidations', movedValidations(piece('dataValidations'), carrying));
  put('extLst', movedExtensions(piece('extLst'), carrying));
  return joinedPieces({ open: withNamespaces(now.open, was.open), elements: now.elements });
}

const AS_IT_IS = ['sheetFormatPr', 'sheetProtection', 'printOptions', 'pageMargins', 'headerFooter'] as const;
const WITH_RANGES = ['protectedRanges', 'ignoredErrors'] as const;

/** Prefixes that what is taken over may need; those that older programs are to pass over stay so. */
function withNamespaces(open: string, before: string): string {
  const given = attributes(startTags(before, 'worksheet')[0] ?? '');
  const known = attributes(startTags(open, 'worksheet')[0] ?? '');
  const added = [...given].filter(([name]) => /^xmlns:|:Ignorable$/.test(name) && !known.has(name));
  return open.replace(/>$/, `${added.map(([name, value]) => ` ${name}="${escapeXml(value)}"`).join('')}>`);
}

/** Zoom, headings and the like as they were; grid lines, direction and frozen panes as the page has them. */
function viewOf(now: string, before: string): string {
  const [mine = '<sheetView workbookViewId="0"/>'] = startTags(now, 'sheetView');
  const given = attributes(startTags(before, 'sheetView')[0] ?? '');
  const kept = [...given].filter(([name]) => VIEWS.has(name));
  const known = attributes(mine);
  const added = kept.filter(([name]) => !known.has(name)).map(([name, value]) => ` ${name}="${escapeXml(value)}"`);
  const [pane = ''] = startTags(now, 'pane');
  const split = startTags(before, 'pane').find((tag) => !/\sstate="frozen/.test(tag)) ?? '';
  const own = /\sstate="frozen/.test(pane) ? pane : split.replace(/\s*\/?>$/, '/>');
  return `<sheetViews>${mine.replace(/\s*\/?>$/, '')}${added.join('')}>${own}</sheetView></sheetViews>`;
}

const VIEWS: ReadonlySet<string> = new Set([
  'showFormulas',
  'showRowColHeaders',
  'showZeros',
  'showRuler',
  'showOutlineSymbols',
  'defaultGridColor',
  'showWhiteSpace',
  'view',
  'colorId',
  'zoomScale',
  'zoomScaleNormal',
  'zoomScaleSheetLayoutView',
  'zoomScalePageLayoutView',
]);

/** An element whose children each have ranges of their own, without those whose cells are gone. */
function inPlaces(element: string, own: Shifts): string {
  const kept = childrenOf(element).flatMap(([, text]) => withPlace(text, own) ?? []);
  return kept.length === 0 ? '' : around(element, kept.join(''));
}

function childrenOf(element: string): [string, string][] {
  const start = element.indexOf('>') + 1;
  return element.endsWith('/>') && start === element.length
    ? []
    : sideBySide(element.slice(start, element.lastIndexOf('</')));
}

/** The element around other children; a count of them is set right. */
function around(element: string, inside: string, count?: number): string {
  const open = element.slice(0, element.indexOf('>') + 1);
  const counted = count === undefined ? open : open.replace(/\scount="\d+"/, ` count="${count}"`);
  return counted + inside + element.slice(element.lastIndexOf('</'));
}

const PLACE = /(\ssqref=)(?:"([^"]*)"|'([^']*)')/;

/** The element with its ranges as they are now; undefined when its cells are gone. */
function withPlace(element: string, own: Shifts): string | undefined {
  const [, , first, second] = PLACE.exec(element) ?? [];
  const moved = movedRanges(first ?? second ?? '', own);
  return moved === '' ? undefined : element.replace(PLACE, (_, name: string) => `${name}"${moved}"`);
}

function movedFilter(element: string, own: Shifts): string {
  const range = attributes(startTags(element, 'autoFilter')[0] ?? '').get('ref') ?? '';
  const block = parseBlock(range);
  if (block === undefined) return '';
  const moved = movedRange(range, own);
  if (moved === GONE) return '';
  const width = block.endColumn - block.startColumn + 1;
  const places = movedColumns(
    Array.from({ length: width }, (_, at) => at),
    block,
    own,
  );
  const conditions = childrenOf(element).flatMap(([name, text]) => {
    if (name !== 'filterColumn') return [];
    const to = places.indexOf(Number(attributes(text).get('colId')));
    return to < 0 ? [] : [text.replace(/\scolId="\d+"/, ` colId="${to}"`)];
  });
  return `<autoFilter ref="${moved}">${conditions.join('')}</autoFilter>`;
}

/** Changes the text of the elements of a name, whatever their prefix. */
function inElements(xml: string, name: string, change: (text: string) => string): string {
  const pattern = new RegExp(`(<((?:\\w+:)?)${name}(?:\\s[^>]*)?>)([^<]*)(</\\2${name}\\s*>)`, 'g');
  return xml.replace(pattern, (whole, open: string, _prefix, text: string, close: string) => {
    const before = unescapeXml(text);
    const now = change(before);
    return now === before ? whole : open + escapeXml(now) + close;
  });
}

function movedFormats(elements: string, { sheet, edits, firstFormat }: Carrying): string {
  const own = editsOf(edits, sheet);
  return sideBySide(elements)
    .flatMap(([, text]) => {
      const place = withPlace(text, own);
      if (place === undefined) return [];
      const range = attributes(startTags(text, 'conditionalFormatting')[0] ?? '').get('sqref') ?? '';
      const rules = inElements(place, 'formula', (formula) => movedRuleFormula(formula, range, sheet, edits));
      return [withFormats(rules, firstFormat)];
    })
    .join('');
}

/** The marks of formats, counted from where those of the file before begin now. */
export function withFormats(xml: string, firstFormat: number): string {
  return xml.replace(
    /(\s\w*[dD]xfId=")(\d+)"/g,
    (_, name: string, id: string) => `${name}${Number(id) + firstFormat}"`,
  );
}

function movedValidations(element: string, { sheet, edits }: Carrying): string {
  const own = editsOf(edits, sheet);
  const kept = childrenOf(element).flatMap(([, text]) => {
    const place = withPlace(text, own);
    if (place === undefined) return [];
    const range = attributes(startTags(text, 'dataValidation')[0] ?? '').get('sqref') ?? '';
    const move = (formula: string): string => movedRuleFormula(formula, range, sheet, edits);
    return [inElements(inElements(place, 'formula1', move), 'formula2', move)];
  });
  return kept.length === 0 ? '' : around(element, kept.join(''), kept.length);
}

/** Conditional formats, lists and small charts as newer programs keep them (MS-XLSX §2.2.4); other extensions are left out. */
function movedExtensions(element: string, carrying: Carrying): string {
  const kept = childrenOf(element).flatMap(([, extension]) => {
    const [[name, list] = ['', '']] = childrenOf(extension);
    const moved = NEWER.test(name) ? movedList(list, carrying) : '';
    return moved === '' ? [] : [around(extension, moved)];
  });
  return kept.length === 0 ? '' : around(element, kept.join(''));
}

const NEWER = /:(?:conditionalFormattings|dataValidations|sparklineGroups)$/;

function movedList(list: string, carrying: Carrying): string {
  const kept = childrenOf(list).flatMap(([name, text]) => {
    return name.endsWith(':sparklineGroup') ? movedGroup(text, carrying) : (movedRule(text, carrying) ?? []);
  });
  return kept.length === 0 ? '' : around(list, kept.join(''), kept.length);
}

const INNER_PLACE = /<((?:\w+:)?)sqref\s*>([^<]*)<\/\1sqref\s*>/;

/** A rule whose ranges are an element of its own; undefined when its cells are gone. */
function movedRule(rule: string, { sheet, edits }: Carrying): string | undefined {
  const range = unescapeXml(INNER_PLACE.exec(rule)?.[2] ?? '').trim();
  const moved = movedRanges(range, editsOf(edits, sheet));
  if (moved === '') return undefined;
  const placed = inElements(rule, 'sqref', () => moved);
  return inElements(placed, 'f', (formula) => movedRuleFormula(formula, range, sheet, edits));
}

/** A group of small charts: each stands in one cell and draws one range. */
function movedGroup(group: string, { sheet, edits }: Carrying): string[] {
  const own = editsOf(edits, sheet);
  let left = 0;
  const moved = inElements(group, 'f', (formula) => movedFormula(formula, sheet, edits)).replace(
    /<((?:\w+:)?)sparkline\s*>[\s\S]*?<\/\1sparkline\s*>/g,
    (chart) => {
      const block = parseBlock(INNER_PLACE.exec(chart)?.[2] ?? '');
      if (block === undefined || movedBlocks(block, own) === undefined || chart.includes(GONE)) return '';
      left++;
      return inElements(chart, 'sqref', (cell) => movedRange(cell, own));
    },
  );
  return left === 0 ? [] : [moved];
}
