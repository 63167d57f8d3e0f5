import { withFormats } from './carry.ts';
import { type Parts, partText, textPart } from './package.ts';
import { type Layout, layoutOf } from './parts.ts';
import { sideBySide, unprefixed } from './sheet-pieces.ts';

/**
 * Takes the formats of conditions, and the styles of tables, of the file before over into the file made anew.
 * @returns the place of the first of them among those of the file made anew
 */
export function keepFormats(parts: Parts, before: Parts, old: Layout): number {
  const part = stylesOf(layoutOf(parts));
  const xml = partText(parts, part);
  const kept = elementsOf(partText(before, stylesOf(old)) ?? '');
  if (xml === undefined) return 0;
  const now = /<dxfs(?:\s[^>]*)?(?:\/>|>([\s\S]*?)<\/dxfs>)/.exec(xml);
  const mine = now?.[1] ?? '';
  const first = sideBySide(mine).length;
  const formats = sideBySide(insideOf(kept.get('dxfs') ?? ''));
  if (now !== null && formats.length > 0) {
    const all = `${mine}${formats.map(([, text]) => text).join('')}`;
    const tables = withFormats(kept.get('tableStyles') ?? '', first);
    const mended = xml.replace(now[0], () => `<dxfs count="${first + formats.length}">${all}</dxfs>`);
    parts.set(
      part,
      textPart(
        tables === ''
          ? mended
          : mended.replace(/<tableStyles(?:\s[^>]*)?(?:\/>|>[\s\S]*?<\/tableStyles>)/, () => tables),
      ),
    );
  }
  return first;
}

function stylesOf({ relations }: Layout): string {
  return relations.find(({ type }) => type.endsWith('/styles'))?.target ?? '';
}

function elementsOf(xml: string): Map<string, string> {
  const root = /<((?:\w+:)?)styleSheet(?=[\s>])[^>]*>/.exec(xml);
  if (root === null) return new Map();
  const inside = xml.slice(root.index + root[0].length, xml.lastIndexOf(`</${root[1]}styleSheet`));
  return new Map(sideBySide(unprefixed(inside, root[1] ?? '')));
}

function insideOf(element: string): string {
  return /^<[^>]*[^/]>/.test(element) ? element.slice(element.indexOf('>') + 1, element.lastIndexOf('</')) : '';
}
