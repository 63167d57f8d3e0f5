import sax from 'sax';

export interface XmlElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly XmlElement[];
  readonly text: string;
}

interface OpenElement {
  readonly name: string;
  readonly attributes: Record<string, string>;
  readonly children: OpenElement[];
  text: string;
}

/** The element tree of an XML document, in document order, prefixes kept. Throws on text that is not well formed. */
export function parseXml(source: string): XmlElement {
  const document: OpenElement = { name: '', attributes: {}, children: [], text: '' };
  const open = [document];
  const parser = sax.parser(true, { trim: true });
  parser.onerror = (error) => {
    throw error;
  };
  parser.onopentag = (tag) => {
    const element: OpenElement = { name: tag.name, attributes: {}, children: [], text: '' };
    for (const [key, value] of Object.entries(tag.attributes)) element.attributes[key] = String(value);
    open.at(-1)?.children.push(element);
    open.push(element);
  };
  parser.ontext = (text) => {
    const element = open.at(-1);
    if (element !== undefined) element.text += text;
  };
  parser.onclosetag = () => {
    open.pop();
  };
  parser.write(source).close();
  const [root] = document.children;
  if (root === undefined) throw new Error('an XML document has one root element');
  return root;
}

/** The elements under `element` that the path of child names leads to. */
export function findAll(element: XmlElement, ...path: readonly string[]): readonly XmlElement[] {
  let found: readonly XmlElement[] = [element];
  for (const name of path) found = found.flatMap((parent) => parent.children.filter((child) => child.name === name));
  return found;
}

/** The element and everything under it, in document order. */
export function* walk(element: XmlElement): Generator<XmlElement> {
  yield element;
  for (const child of element.children) yield* walk(child);
}
