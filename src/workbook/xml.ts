/**
 * As much XML as patching a workbook's parts needs. Parts are written by programs, so plain scanning does; a prefix before
 * an element's name is allowed for.
 */

const ENTITIES: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };

export function unescapeXml(text: string): string {
  if (!text.includes('&')) return text;
  return text.replace(/&(?:#(\d+)|#x([0-9a-f]+)|(\w+));/gi, (whole, decimal, hex, name) => {
    if (name !== undefined) return ENTITIES[name] ?? whole;
    const code = decimal !== undefined ? Number(decimal) : Number.parseInt(hex, 16);
    return code <= 0x10ffff ? String.fromCodePoint(code) : whole;
  });
}

const PLAIN = /^[ !#$%'()*+,./0-9:;=?@A-Z[\\\]^`a-z{|}~-]*$/;
const UNSAFE = /[&<>"]/g;
const ESCAPES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };
/** What XML cannot hold or would change (a carriage return), and text that reads like such an escape. */
const FORBIDDEN = /[^\t\n -\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]|_(?=x[0-9A-F]{4}_)/gu;

/** Text for an element or attribute; characters that XML cannot hold become _xHHHH_ (ISO/IEC 29500-1 §22.9.2.19). */
export function escapeXml(text: string): string {
  // Most text is plain: letters, digits and everyday punctuation.
  if (PLAIN.test(text)) return text;
  return text
    .replace(UNSAFE, (letter) => ESCAPES[letter] as string)
    .replace(FORBIDDEN, (letter) => `_x${letter.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}_`);
}

/** Attributes of a start tag by their names as written. A name begins where no other does: time in proportion to the text. */
export function attributes(tag: string): Map<string, string> {
  const found = new Map<string, string>();
  for (const match of tag.matchAll(/(?<![\w:.-])([\w:.-]+)\s*=\s*(?:"([^"]*)"|'([^']*)')/g)) {
    found.set(match[1] as string, unescapeXml(match[2] ?? match[3] ?? ''));
  }
  return found;
}

/** Start tags of all elements with this local name, in order. A tag that is not closed ends the search. */
export function startTags(xml: string, name: string): string[] {
  const opening = new RegExp(`<(?:\\w+:)?${name}(?=[\\s/>])`, 'g');
  const tags: string[] = [];
  for (let match = opening.exec(xml); match !== null; match = opening.exec(xml)) {
    const end = tagEnd(xml, opening.lastIndex);
    if (end === undefined) break;
    tags.push(xml.slice(match.index, end));
    opening.lastIndex = end;
  }
  return tags;
}

/** Behind the > that ends a tag; a > inside an attribute's quotes does not. */
function tagEnd(xml: string, from: number): number | undefined {
  let quote = '';
  for (let at = from; at < xml.length; at++) {
    const letter = xml[at] as string;
    if (quote !== '') {
      if (letter === quote) quote = '';
    } else if (letter === '"' || letter === "'") quote = letter;
    else if (letter === '>') return at + 1;
  }
  return undefined;
}

/**
 * XML without comments and processing instructions, and with text where it had CDATA sections: what stands in them looks like
 * cells and tags to a scan and is none. The text itself when it has nothing of the kind.
 */
export function plainXml(xml: string): string {
  if (!xml.includes('<!') && xml.indexOf('<?', 1) === -1) return xml;
  let out = '';
  let from = 0;
  const close = (at: number, mark: string): number => {
    const end = xml.indexOf(mark, at);
    return end === -1 ? xml.length : end;
  };
  for (let at = xml.indexOf('<'); at !== -1; at = xml.indexOf('<', Math.max(from, at + 1))) {
    if (xml.startsWith('<!--', at)) {
      out += xml.slice(from, at);
      from = close(at + 4, '-->') + 3;
    } else if (xml.startsWith(CDATA, at)) {
      const end = close(at, ']]>');
      out += xml.slice(from, at) + escapeXml(xml.slice(at + CDATA.length, end));
      from = end + 3;
    } else if (xml.startsWith('<?', at) && !xml.startsWith('<?xml ', at)) {
      out += xml.slice(from, at);
      from = close(at, '?>') + 2;
    }
  }
  return out + xml.slice(from);
}

const CDATA = '<![CDATA[';

/**
 * True for XML with a document type, which may define what its text means and which no part of a package may have.
 * @param start as much of the part as can stand before its first element
 * @param cut whether there is more of it: then an element must have begun
 */
export function hasDoctype(start: string, cut: boolean): boolean {
  const text = plainXml(start);
  const element = text.search(/<[^!?]/);
  return element === -1 ? cut || text.includes('<!') : text.slice(0, element).includes('<!');
}

export interface Relation {
  readonly id: string;
  readonly type: string;
  /** part that it leads to, as named in the package; the address itself for an outside target */
  readonly target: string;
  readonly outside: boolean;
}

/** Relations of a part, their targets resolved against the part's folder (ISO/IEC 29500-2 §9.3). */
export function relations(xml: string | undefined, folder: string): Relation[] {
  if (xml === undefined) return [];
  return startTags(xml, 'Relationship').map((tag) => {
    const given = attributes(tag);
    const outside = given.get('TargetMode') === 'External';
    const target = given.get('Target') ?? '';
    return {
      id: given.get('Id') ?? '',
      type: given.get('Type') ?? '',
      target: outside ? target : resolved(folder, target),
      outside,
    };
  });
}

function resolved(folder: string, target: string): string {
  if (target.startsWith('/')) return target.slice(1);
  const steps = folder === '' ? [] : folder.split('/');
  for (const step of target.split('/')) {
    if (step === '..') steps.pop();
    else if (step !== '.' && step !== '') steps.push(step);
  }
  return steps.join('/');
}
