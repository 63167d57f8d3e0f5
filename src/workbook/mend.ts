import { type Parts, partText, textPart } from './package.ts';

/**
 * Sets right what the writer of workbooks leaves otherwise than other programs read it: print ranges of sheets whose name
 * needs quotes, points that are to have no line, bars that are not to be seen, and curves that are not to swing beyond their points.
 *
 * @param written tells the parts that it wrote from those that it took over from a file
 */
export function mendWritten(parts: Parts, written: (part: string) => boolean = () => true): void {
  for (const name of [...parts.keys()].filter(written)) {
    const mend = name === 'xl/workbook.xml' ? quotePrintNames : CHART.test(name) ? drawPlainly : undefined;
    const xml = mend === undefined ? undefined : partText(parts, name);
    if (mend !== undefined && xml !== undefined) parts.set(name, textPart(mend(xml)));
  }
}

/** Widths of columns that are alike as one entry: the writer makes one of each, 16,384 where a width holds for a whole sheet. */
export function joinWidths(parts: Parts): void {
  for (const name of [...parts.keys()].filter((part) => /^xl\/worksheets\/[^/]+\.xml$/.test(part))) {
    const xml = partText(parts, name) ?? '';
    const cols = /<cols>([^\n]*?)<\/cols>/.exec(xml);
    if (cols === null) continue;
    const runs: { first: number; last: number; rest: string }[] = [];
    for (const [, min, max, rest = ''] of (cols[1] ?? '').matchAll(/<col min="(\d+)" max="(\d+)"([^>]*)\/>/g)) {
      const run = runs.at(-1);
      if (run?.rest === rest && run.last + 1 === Number(min)) run.last = Number(max);
      else runs.push({ first: Number(min), last: Number(max), rest });
    }
    const joined = runs.map(({ first, last, rest }) => `<col min="${first}" max="${last}"${rest}/>`);
    parts.set(name, textPart(xml.replace(cols[0], () => `<cols>${joined.join('')}</cols>`)));
  }
}

/** Looks of letters in the order in which the programs that check files want them. */
const FONT_ORDER = 'b i strike condense extend outline shadow u vertAlign sz color name family charset scheme'.split(
  ' ',
);

/** The entries of each font in the order in which programs write them. */
export function orderFonts(parts: Parts): void {
  const xml = partText(parts, 'xl/styles.xml');
  if (xml === undefined) return;
  const place = (entry: string): number => FONT_ORDER.indexOf(/^<(?:\w+:)?(\w+)/.exec(entry)?.[1] ?? '');
  const ordered = xml.replace(
    /(<((?:\w+:)?)font>)(.*?)(?=<\/\2font>)/gs,
    (whole, start: string, _prefix, inside: string) => {
      const entries = inside.match(/<[^>]*\/>/g) ?? [];
      if (entries.join('') !== inside || entries.some((entry) => place(entry) < 0)) return whole;
      return start + entries.sort((a, b) => place(a) - place(b)).join('');
    },
  );
  parts.set('xl/styles.xml', textPart(ordered));
}

const CHART = /^xl\/charts\/chart\d+\.xml$/;
const PRINT_NAME = /(<definedName name="_xlnm\.Print_(?:Area|Titles)"[^>]*>)([^<]*)(?=<)/g;
/** Rows and columns that are repeated, both of one sheet. */
const TWO_RANGES = /^(.*)!([^,!]*),\1!([^,!]*)$/;
/** The area of a sheet, or several with commas between, of which the writer names the sheet once. */
const AREAS = /^(.*)!([^!]*)$/;

/**
 * A name in a formula stands in quotes where it holds more than letters and digits; a quote within it is doubled. Of two ranges
 * that of the columns comes first, as spreadsheet programs write them.
 */
function quotePrintNames(xml: string): string {
  return xml.replace(PRINT_NAME, (whole, tag: string, ranges: string) => {
    const [, sheet, ...found] = TWO_RANGES.exec(ranges) ?? AREAS.exec(ranges) ?? [];
    if (sheet === undefined) return whole;
    const bare = sheet.startsWith("'") && sheet.endsWith("'") ? sheet.slice(1, -1).replaceAll("''", "'") : sheet;
    const quoted = `'${bare.replaceAll("'", "''")}'`;
    const cells = found.flatMap((range) => range.split(','));
    const absolute = cells.map((range) => range.replace(/\$?\b([A-Z]{1,3})\$?(\d+)/g, '$$$1$$$2'));
    const isRows = (range: string): boolean => /^\$?\d/.test(range);
    absolute.sort((a, b) => Number(isRows(a)) - Number(isRows(b)));
    return `${tag}${absolute.map((range) => `${quoted}!${range}`).join(',')}`;
  });
}

/** Colour of a line or a bar that is to be taken out: the writer has no word for none. */
export const UNSEEN = { theme: 'bg1', alpha: 0 } as const;
const FILL = '<a:solidFill><a:schemeClr val="bg1"><a:alpha val="0"/></a:schemeClr></a:solidFill>';
const UNSEEN_SERIES = `<c:spPr>${FILL}<a:ln>${FILL}</a:ln></c:spPr>`;

function drawPlainly(xml: string): string {
  const fill = xml.includes('<c:barChart>') ? '<a:noFill/>' : '';
  return xml
    .replaceAll(UNSEEN_SERIES, `<c:spPr>${fill}<a:ln><a:noFill/></a:ln></c:spPr>`)
    .replaceAll('</c:yVal></c:ser>', '</c:yVal><c:smooth val="0"/></c:ser>');
}
