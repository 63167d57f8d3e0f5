/** The pane’s page in a real browser, under its content policy and without Excel: what a person sees of it. */
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startBrowser } from '../browser/chromium.ts';
import { type BuiltAddIn, buildAddIn } from './build.ts';

const TYPES: Readonly<Record<string, string>> = {
  html: 'text/html',
  js: 'text/javascript',
  css: 'text/css',
  json: 'application/json',
  png: 'image/png',
};
const NARROWEST = 320;

let built: BuiltAddIn;
let server: Server;
let browser: Browser;
let page: Page;
let address: string;
const complaints: string[] = [];
const outside: string[] = [];

beforeAll(async () => {
  built = await buildAddIn('https://tables.example');
  const present = new Set(built.names());
  server = createServer((request, response) => {
    const name = (request.url ?? '').slice(1).replace(/[?#].*$/, '');
    if (!present.has(name)) return response.writeHead(404).end();
    response.writeHead(200, { 'content-type': TYPES[name.replace(/^.*\./, '')] ?? 'text/plain' });
    return response.end(built.read(name));
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
  built?.remove();
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

  it('has a help page with a place for every function that links lead to', async () => {
    await page.goto(`${address}/docs/reference/CONVERT.html`);
    expect(await page.locator('h1#convert').textContent()).toBe('CONVERT');
    expect(complaints).toEqual([]);
  });
});
