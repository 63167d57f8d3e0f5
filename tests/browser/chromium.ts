import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, chromium } from 'playwright-core';

const USUAL_PLACES = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];
/** Nothing beyond loopback: no updates, no sync, no first-run pages. */
const ARGUMENTS = [
  '--no-sandbox',
  '--disable-gpu',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/**
 * A browser without a window: the one that NARROWS_CHROMIUM names, else one that the machine has, else the build that
 * the packages bring for Linux x64.
 */
export async function startBrowser(): Promise<Browser> {
  const own = process.env.NARROWS_CHROMIUM ?? USUAL_PLACES.find((place) => existsSync(place));
  if (own !== undefined) return await chromium.launch({ executablePath: own, args: ARGUMENTS });
  // It unpacks itself into the temporary folder and takes whatever lies there under its name: give it a folder of its own.
  const folder = mkdtempSync(join(tmpdir(), 'chromium-'));
  process.env.TMPDIR = folder;
  const { default: packed } = await import('@sparticuz/chromium');
  const args = [...packed.args, ...ARGUMENTS];
  const browser = await chromium.launch({ executablePath: await packed.executablePath(), args });
  browser.once('disconnected', () => rmSync(folder, { recursive: true, force: true }));
  return browser;
}
