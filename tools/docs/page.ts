import { Marked, type Tokens } from 'marked';

/**
 * What a page of the docs may load: its own style sheet and pictures, nothing else (its icon is an empty one in the page). It stands in the page because the
 * host that an administrator uploads to may send no policy of its own.
 */
const POLICY = "default-src 'none'; style-src 'self'; img-src 'self' data:; base-uri 'none'; form-action 'none'";

/** The words of a heading as they name it in an address: "Tubes and hoses" is tubes-and-hoses. */
export function slug(heading: string): string {
  return heading
    .toLowerCase()
    .replace(/[^\p{L}\p{N}\s_-]/gu, '')
    .trim()
    .replace(/\s+/g, '-');
}

/** Text as it stands in a page: no character of it opens a tag or closes an attribute. */
export function plain(text: string): string {
  return text.replace(/[&<>"']/g, (mark) => `&#${mark.charCodeAt(0)};`);
}

/** A link of a page in Markdown, as it is in the page made from it; undefined if pages may not lead there. */
export function pageLink(href: string): string | undefined {
  if (/^https:\/\//.test(href)) return href;
  if (/^[a-z][a-z0-9+.-]*:|^\/\//i.test(href)) return undefined;
  return href.replace(/(^|\/)README\.md(?=#|$)/, '$1index.html').replace(/\.md(?=#|$)/, '.html');
}

interface Page {
  readonly title: string;
  readonly html: string;
}

/** Turns Markdown into the body of a page. Tags in the text are shown, not obeyed. */
export function renderMarkdown(text: string): Page {
  let title = '';
  const words = (tokens: readonly Tokens.Generic[]): string =>
    tokens.map((token) => ('tokens' in token && token.tokens ? words(token.tokens) : (token.text ?? ''))).join('');
  const marked = new Marked({
    gfm: true,
    renderer: {
      html: ({ text: tag }) => plain(tag),
      heading({ tokens, depth }) {
        const name = words(tokens);
        if (title === '') title = name;
        return `<h${depth} id="${plain(slug(name))}">${this.parser.parseInline(tokens)}</h${depth}>\n`;
      },
      link({ href, tokens }) {
        const inner = this.parser.parseInline(tokens);
        const to = pageLink(href);
        return to === undefined ? inner : `<a href="${plain(to)}">${inner}</a>`;
      },
      image({ href, text: about }) {
        const from = pageLink(href);
        return from === undefined ? plain(about) : `<img src="${plain(from)}" alt="${plain(about)}">`;
      },
      // wide tables and long formulas scroll by themselves, by key as well
      code: ({ text: lines }) => `<pre tabindex="0"><code>${plain(lines)}</code></pre>\n`,
    },
  });
  const html = marked
    .parse(text, { async: false })
    .replaceAll('<table>', '<div class="wide" tabindex="0"><table>')
    .replaceAll('</table>', '</table></div>');
  return { title, html };
}

/**
 * A page of the docs made from Markdown.
 * @param text Markdown
 * @param depth how many folders deep the page lies under the docs
 */
export function docPage(text: string, depth: number): string {
  const { title, html } = renderMarkdown(text);
  const up = '../'.repeat(depth);
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${POLICY}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${plain(title === '' ? 'Narrows' : `${title} – Narrows`)}</title>
<link rel="icon" href="data:,">
<link rel="stylesheet" href="${up}docs.css">
</head>
<body>
<nav aria-label="Docs"><a href="${up}index.html">Contents</a> <a href="${up}course/index.html">Course</a> <a href="${up}reference/index.html">Functions</a> <a href="${up}method.html">Method</a></nav>
<main>
${html}</main>
</body>
</html>
`;
}
