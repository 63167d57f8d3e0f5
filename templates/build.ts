import { rename, writeFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { fillTemplate } from './fill.ts';

const path = fileURLToPath(new URL('./narrows-template.xlsx', import.meta.url));
const { bytes, faults } = await fillTemplate();
if (faults.length > 0) {
  for (const fault of faults) console.error(fault);
  process.exitCode = 1;
} else {
  await writeFile(`${path}.part`, bytes);
  await rename(`${path}.part`, path);
  console.log(`templates/narrows-template.xlsx: ${bytes.length} bytes`);
}
