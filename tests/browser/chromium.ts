import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, chromium } from 'playwright-core';

const USUAL_PLACES = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/google-chrome-stable',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
];
/** Nothing beyond loopback: no updates, no sync, no first-run pages. */
const ARGUMENTS = [
  '--no-sandbox',
  '--disable-gpu',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];
/** The package unpacks its libraries only where it takes the machine for one of a certain kind: this is how it tells. */
const UNPACK_LIBRARIES = 'AWS_Lambda_nodejs20.x';
const ADVICE =
  'No browser could be started for the tests. Install Chromium (Debian and Ubuntu: apt-get install chromium), or name ' +
  'the program of one in NARROWS_CHROMIUM.';

/**
 * A browser without a window: the one that NARROWS_CHROMIUM names, else one that the machine has, else the build that
 * the packages bring for Linux x64. A test that cannot have one fails and says how to get one.
 */
export async function startBrowser(): Promise<Browser> {
  const own = process.env.NARROWS_CHROMIUM ?? USUAL_PLACES.find((place) => existsSync(place));
  try {
    if (own !== undefined) return await chromium.launch({ executablePath: own, args: ARGUMENTS });
    return await startPacked();
  } catch (error) {
    throw new Error(ADVICE, { cause: error });
  }
}

/** The packaged build; where the machine lacks libraries that it needs, with those that the package brings. */
async function startPacked(): Promise<Browser> {
  // It unpacks itself into the temporary folder and takes whatever lies there under its name: give it a folder of its own.
  const folder = mkdtempSync(join(tmpdir(), 'chromium-'));
  const env = { ...process.env };
  Object.assign(process.env, { TMPDIR: folder, AWS_EXECUTION_ENV: UNPACK_LIBRARIES });
  try {
    const { default: packed } = await import('@sparticuz/chromium');
    const start = { executablePath: await packed.executablePath(), args: ARGUMENTS };
    const browser = await chromium
      .launch({ ...start, env })
      .catch(() => chromium.launch({ ...start, env: { ...env, LD_LIBRARY_PATH: join(folder, 'al2023', 'lib') } }));
    browser.once('disconnected', () => rmSync(folder, { recursive: true, force: true }));
    return browser;
  } catch (error) {
    rmSync(folder, { recursive: true, force: true });
    throw error;
  } finally {
    for (const name of ['TMPDIR', 'AWS_EXECUTION_ENV', 'LD_LIBRARY_PATH', 'FONTCONFIG_PATH', 'HOME']) {
      const before = env[name];
      if (before === undefined) delete process.env[name];
      else process.env[name] = before;
    }
  }
}
