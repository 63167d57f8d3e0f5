/** Draws the picture of the embedded sheet for the read-me: the built page in a real browser, with the results in view. */
import { mkdirSync } from 'node:fs';
import { startSheetTests } from '../tests/browser/sheet-page.ts';

const FOLDER = 'docs/pictures';

const tests = await startSheetTests();
try {
  const { page, select } = await tests.open({ width: 1440, height: 860 });
  await select('Results!B11');
  await page.getByRole('tablist', { name: 'Sections of the pane' }).getByRole('tab', { name: 'Functions' }).click();
  await page.getByLabel('Search functions').fill('evac');
  await page.waitForTimeout(1500);
  mkdirSync(FOLDER, { recursive: true });
  await page.screenshot({ path: `${FOLDER}/sheet.png` });
} finally {
  await tests.close();
}
