import type { CellFunction } from '../../../functions/define.ts';

const CAUTION =
  'Refrigerants, nitrogen under pressure and vacuum equipment can hurt people. Local codes and licensed practice come first.';

/** The page that Excel's help links lead to: every function with its arguments, from the registry. */
export function helpPage(functions: readonly CellFunction[], namespace: string): string {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>Narrows: the functions</title>
<link rel="icon" href="icons/icon-32.png" type="image/png">
<link rel="stylesheet" href="help.css">
</head>
<body>
<main>
<h1>Narrows: the functions</h1>
<p>${plain(CAUTION)}</p>
<nav aria-label="Functions"><ul>${functions.map((entry) => `<li><a href="#${entry.id}">${entry.id}</a></li>`).join('')}</ul></nav>
${functions.map((entry) => section(entry, namespace)).join('\n')}
</main>
</body>
</html>
`;
}

function section(entry: CellFunction, namespace: string): string {
  const parameters = Object.entries(entry.parameters);
  const names = parameters.map(([name, { optional }]) => (optional ? `[${name}]` : name));
  const rows = parameters.map(([name, { description }]) => `<dt>${plain(name)}</dt><dd>${plain(description)}</dd>`);
  const examples = entry.examples.map(
    (example) => `<li><code>${plain(example.formula)}</code>: ${plain(example.shows)}</li>`,
  );
  return [
    `<section id="${entry.id}">`,
    `<h2>${entry.id}</h2>`,
    `<p>${plain(entry.summary)}</p>`,
    `<p><code>=${namespace}.${entry.id}(${plain(names.join(', '))})</code></p>`,
    rows.length > 0 ? `<dl>${rows.join('')}</dl>` : '',
    `<p>Gives: ${plain(entry.result.description)}</p>`,
    examples.length > 0 ? `<ul>${examples.join('')}</ul>` : '',
    ...(entry.notes ?? []).map((note) => `<p>${plain(note)}</p>`),
    '</section>',
  ]
    .filter((line) => line !== '')
    .join('\n');
}

function plain(text: string): string {
  return text.replace(/[&<>"']/g, (mark) => `&#${mark.charCodeAt(0)};`);
}
