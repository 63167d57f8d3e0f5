/**
 * The folder that `npm run package` makes, served by a plain static host, in a real browser, under its content policy and
 * without Excel: what a person sees of it.
 */
import { execFile } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { promisify } from 'node:util';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { violations } from '../browser/axe.ts';
import { startBrowser } from '../browser/chromium.ts';

const TYPES: Readonly<Record<string, string>> = {
  html: 'text/html',
  js: 'text/javascript',
  css: 'text/css',
  json: 'application/json',
  png: 'image/png',
};
const NARROWEST = 320;
const PUBLISHED_AT = 'https://tables.example/narrows';
const TABS = ['Cautions', 'Functions', 'Rig', 'Workbook'] as const;
/** The checker looks at every element by every rule, and the machine may have other work. */
const PATIENCE_MS = 180_000;

let folder: string;
let server: Server;
let browser: Browser;
let page: Page;
let address: string;
const complaints: string[] = [];
const outside: string[] = [];

beforeAll(async () => {
  folder = mkdtempSync(path.join(tmpdir(), 'narrows-package-'));
  await promisify(execFile)('npm', ['run', 'package'], {
    env: { ...process.env, ADDRESS: PUBLISHED_AT, FOLDER: folder },
    shell: process.platform === 'win32',
  });
  const present = new Set(readdirSync(folder, { recursive: true, encoding: 'utf8' }));
  server = createServer((request, response) => {
    const name = (request.url ?? '').slice(1).replace(/[?#].*$/, '');
    if (!present.has(name)) return response.writeHead(404).end();
    response.writeHead(200, { 'content-type': TYPES[name.replace(/^.*\./, '')] ?? 'text/plain' });
    return response.end(readFileSync(path.join(folder, name)));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  address = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  browser = await startBrowser();
  page = await browser.newPage({ viewport: { width: NARROWEST, height: 700 } });
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('request', (request) => {
    if (!request.url().startsWith(address)) outside.push(request.url());
  });
  await page.goto(`${address}/preview.html`);
});

afterAll(async () => {
  await browser?.close();
  server?.close();
  if (folder !== undefined) rmSync(folder, { recursive: true });
});

describe('the package on a static host', () => {
  it('has every file that its manifest names, under the address that it was made for', async () => {
    const manifest = readFileSync(path.join(folder, 'manifest.xml'), 'utf8');
    const named = [...manifest.matchAll(/"(https:[^"]+)"/g)].map((match) => String(match[1]));
    const ours = named.filter((one) => !one.startsWith('https://go.microsoft.com') && !/schemas?\./.test(one));
    expect(ours.length).toBeGreaterThan(4);
    for (const one of ours) {
      expect(one.startsWith(`${PUBLISHED_AT}/`) || one === PUBLISHED_AT, one).toBe(true);
      const answer = await fetch(one.replace(PUBLISHED_AT, address));
      if (one !== PUBLISHED_AT) expect(answer.status, one).toBe(200);
    }
  });
});

describe('the pane’s page outside Excel', () => {
  it('shows the cautions first, inside the narrowest pane, and asks nothing of other machines', async () => {
    await page.getByText('Local codes and licensed practice').first().waitFor();
    const overhang = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
    expect(overhang).toBeLessThanOrEqual(0);
    expect(outside).toEqual([]);
    expect(complaints).toEqual([]);
  });

  it('says in words that there is no sheet when it is asked to add the template', async () => {
    await page.getByText('Workbook', { exact: true }).first().click();
    await page.getByRole('button', { name: 'Add the template sheets' }).click();
    await page.getByText('Open the pane in Excel', { exact: false }).waitFor();
    expect(complaints).toEqual([]);
  });

  it.each([
    { width: NARROWEST, dark: false },
    { width: NARROWEST, dark: true },
    { width: 1280, dark: false },
  ])(
    'has nothing that the accessibility checker finds, in any section, at $width px, dark: $dark',
    async ({ width, dark }) => {
      await page.setViewportSize({ width, height: 700 });
      await page.emulateMedia({ colorScheme: dark ? 'dark' : 'light' });
      for (const name of TABS) {
        await page.getByRole('tab', { name }).click();
        expect(await violations(page), name).toEqual([]);
      }
      expect(complaints).toEqual([]);
    },
    PATIENCE_MS,
  );

  it('has a help page with a place for every function that links lead to', async () => {
    await page.goto(`${address}/docs/reference/CONVERT.html`);
    expect(await page.locator('h1#convert').textContent()).toBe('CONVERT');
    expect(complaints).toEqual([]);
  });
});
