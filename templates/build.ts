import { rename, writeFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { books } from './books.ts';
import { fillTemplate } from './fill.ts';

/** Builds every workbook that ships, or those whose names are given: `npm run template -- narrows-empty`. */
const wanted = process.argv.slice(2);
for (const [name, model] of Object.entries(books)) {
  if (wanted.length > 0 && !wanted.includes(name)) continue;
  const path = fileURLToPath(new URL(`./${name}.xlsx`, import.meta.url));
  const { bytes, faults } = await fillTemplate(model());
  if (faults.length > 0) {
    for (const fault of faults) console.error(`${name}: ${fault}`);
    process.exitCode = 1;
    continue;
  }
  await writeFile(`${path}.part`, bytes);
  await rename(`${path}.part`, path);
  console.log(`templates/${name}.xlsx: ${bytes.length} bytes`);
}
