/** The development server as a person starts it, with certificates made in a home of its own. */
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { get, type RequestOptions } from 'node:https';
import { type AddressInfo, createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { manifestFaults } from '../../src/hosts/excel/build/manifest-rules.ts';
import { advice } from '../../src/hosts/excel/serve/advice.ts';

const START = 'src/hosts/excel/start.mjs';

let home: string;
let port: number;
let server: ChildProcess;
let said = '';

async function freePort(): Promise<number> {
  const probe = createServer();
  await new Promise<void>((resolve) => probe.listen(0, '127.0.0.1', resolve));
  const { port: free } = probe.address() as AddressInfo;
  await new Promise((resolve) => probe.close(resolve));
  return free;
}

beforeAll(async () => {
  home = mkdtempSync(join(tmpdir(), 'excel-home-'));
  port = await freePort();
  const env = { ...process.env, HOME: home, USERPROFILE: home };
  server = spawn(process.execPath, [START, '--untrusted', '--port', String(port)], { env });
  await new Promise<void>((resolve, reject) => {
    const hear = (data: Buffer) => {
      said += data.toString('utf8');
      if (said.includes('Open Narrows')) resolve();
    };
    server.stdout?.on('data', hear);
    server.stderr?.on('data', hear);
    server.once('exit', () => reject(new Error(said)));
  });
});

afterAll(async () => {
  const gone = new Promise((resolve) => server.once('exit', resolve));
  server.kill('SIGTERM');
  await gone;
  rmSync(home, { recursive: true, force: true });
});

function fetched(path: string, more: RequestOptions = {}): Promise<{ status: number; body: string; open: unknown }> {
  const ca = readFileSync(join(home, '.office-addin-dev-certs/ca.crt'));
  return new Promise((resolve, reject) => {
    get({ host: 'localhost', port, path, ca, ...more }, (response) => {
      let body = '';
      response.setEncoding('utf8');
      response.on('data', (part: string) => {
        body += part;
      });
      const open = response.headers['access-control-allow-origin'];
      response.on('end', () => resolve({ status: response.statusCode ?? 0, body, open }));
    }).on('error', reject);
  });
}

describe('the add-in’s development server', () => {
  it('serves pane and functions over https with a certificate of its own authority', async () => {
    for (const path of ['/taskpane.html', '/functions.js', '/taskpane.js', '/docs/index.html', '/icons/icon-32.png']) {
      expect((await fetched(path)).status, path).toBe(200);
    }
    await expect(fetched('/taskpane.html', { ca: [] })).rejects.toThrow(/certificate/i);
  });

  it('lets Excel on the web read the metadata, which names this address', async () => {
    const { body, open } = await fetched('/functions.json');
    expect(open).toBe('*');
    expect(body).toContain(`https://localhost:${port}/docs/reference/`);
  });

  it('listens on this machine only and answers no other name', async () => {
    expect(said).toContain(`The add-in is at https://localhost:${port}`);
    expect(
      (await fetched('/functions.json', { headers: { host: 'elsewhere.example' }, servername: 'localhost' })).status,
    ).toBe(403);
  });

  it('writes the manifest that Excel is given', () => {
    const manifest = readFileSync('dist/excel-development/manifest.xml', 'utf8');
    expect(manifest).toContain(`https://localhost:${port}/taskpane.html`);
    expect(manifestFaults(manifest)).toEqual([]);
  });
});

describe('what a person is told', () => {
  it('where there is no Excel: the embedded sheet, and Excel on the web', () => {
    expect(said).toContain(advice(process.platform, 'dist/excel-development/manifest.xml')[0]);
    expect(advice('linux', 'm.xml').join('\n')).toMatch(/npm start.*Upload My Add-in.*m\.xml/s);
  });

  it('where there is: how the manifest is brought there by hand', () => {
    expect(advice('darwin', 'm.xml').join('\n')).toMatch(/m\.xml into ~\/Library/);
    expect(advice('win32', 'm.xml').join('\n')).toMatch(/Trusted Add-in Catalogs/);
  });

  it.each([
    [['--port', 'abc'], /--port takes a number/],
    [['--port', '0'], /from 1 to 65535/],
    [['--wat'], /wat/],
  ])('when the command line %j makes no sense: how it goes, and status 2', (args, words) => {
    const { status, stderr } = spawnSync(process.execPath, [START, ...args], { encoding: 'utf8' });
    expect(status).toBe(2);
    expect(stderr).toMatch(words);
    expect(stderr).toContain('Usage: npm run excel');
  });
});
