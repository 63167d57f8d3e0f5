import { attributes, startTags } from './xml.ts';

/** Zooms that a file may have, in percent (ISO/IEC 29500-1 §18.3.1.87). */
const LEAST = 10;
const MOST = 400;
/** What a sheet is shown at of which its file says nothing, and what a zoom of 0 stands for. */
const OWN_SIZE = 100;

/** How large a sheet is shown in its normal view: 1 is its own size. */
export function zoomOf(xml: string): number {
  const view = attributes(startTags(xml, 'sheetView')[0] ?? '');
  const percent = Number(view.get(isNormal(view) ? 'zoomScale' : 'zoomScaleNormal') ?? OWN_SIZE);
  return (percent >= LEAST && percent <= MOST ? percent : OWN_SIZE) / 100;
}

/** The sheet's part with this zoom of its normal view; whatever else it holds stays to the letter. */
export function withZoom(xml: string, zoom: number): string {
  const percent = String(Math.min(MOST, Math.max(LEAST, Math.round(zoom * 100))));
  const [tag] = startTags(xml, 'sheetView');
  if (tag === undefined) return withView(xml, percent);
  const names = isNormal(attributes(tag)) ? ['zoomScale', 'zoomScaleNormal'] : ['zoomScaleNormal'];
  const changed = names.reduce((text, name) => withAttribute(text, name, percent), tag);
  // by a function: a replacement text has signs of its own
  return xml.replace(tag, () => changed);
}

/** Other views of a sheet, such as that of its pages, have their zoom in `zoomScale` while they are open. */
const isNormal = (view: ReadonlyMap<string, string>): boolean => (view.get('view') ?? 'normal') === 'normal';

function withAttribute(tag: string, name: string, value: string): string {
  const given = new RegExp(`(\\s${name}\\s*=\\s*)(?:"[^"]*"|'[^']*')`);
  return given.test(tag)
    ? tag.replace(given, (_, before: string) => `${before}"${value}"`)
    : tag.replace(/\s*\/?>$/, (end) => ` ${name}="${value}"${end.trim()}`);
}

/** What stands behind the views of a sheet, the first that there is. */
const BEHIND = /<((?:\w+:)?)(?:sheetFormatPr|cols|sheetData)(?=[\s/>])/;

function withView(xml: string, percent: string): string {
  return xml.replace(BEHIND, (next, prefix: string) => {
    const view = `<${prefix}sheetView zoomScale="${percent}" zoomScaleNormal="${percent}" workbookViewId="0"/>`;
    return `<${prefix}sheetViews>${view}</${prefix}sheetViews>${next}`;
  });
}
