import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { connect } from 'node:net';
import { networkInterfaces, tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { BUNDLE } from '../../src/hosts/sheet/bundle.ts';
import { judge } from '../../src/hosts/sheet/guard.ts';
import { BookError, type SheetServer, startServer } from '../../src/hosts/sheet/server.ts';

interface Answer {
  readonly status: number;
  readonly headers: Record<string, unknown>;
  readonly body: string;
}

/** The path goes out as it is written: a browser or `fetch` would tidy it. */
function ask(port: number, how: { path?: string; method?: string; headers?: Record<string, string> }): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const asked = request(
      { host: '127.0.0.1', port, path: '/', headers: { Host: `localhost:${port}` }, ...how },
      (response) => {
        let body = '';
        response.setEncoding('utf8');
        response.on('data', (piece) => {
          body += piece;
        });
        response.on('end', () => resolve({ status: response.statusCode ?? 0, headers: response.headers, body }));
      },
    );
    asked.on('error', reject);
    asked.end();
  });
}

describe('the server answers this machine only, and only to reading', () => {
  let server: SheetServer;
  const folder = mkdtempSync(path.join(tmpdir(), 'narrows-server-'));
  const book = path.join(folder, 'my "own" book.xlsx');
  beforeAll(async () => {
    writeFileSync(book, 'no workbook');
    server = await startServer({ port: 0, book });
  });
  afterAll(async () => {
    await server.close();
    rmSync(folder, { recursive: true });
  });

  it('gives the workbook it was started with, and its name', async () => {
    expect(JSON.parse((await ask(server.port, { path: '/book' })).body)).toEqual({ name: path.basename(book) });
    const { status, body, headers } = await ask(server.port, { path: '/book.packed' });
    // what the server cannot read is left to the page, which says what is wrong
    expect([status, body]).toEqual([200, '\0\0\0\0no workbook']);
    expect(headers['x-content-type-options']).toBe('nosniff');
  });

  it('allows no inline script and nobody else in its content policy', async () => {
    const policy = String((await ask(server.port, {})).headers['content-security-policy']);
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("script-src 'self'");
    expect(policy).not.toMatch(/script-src[^;]*unsafe|https?:|\*/);
  });

  it('turns away other names for this machine and pages from elsewhere', async () => {
    const host = `localhost:${server.port}`;
    for (const headers of [
      { Host: 'narrows.example' },
      { Host: `narrows.example:${server.port}` },
      { Host: 'localhost' },
      { Host: host, Origin: 'https://narrows.example' },
      { Host: host, Origin: 'null' },
      { Host: host, Origin: `http://localhost:${server.port + 1}` },
    ] as Record<string, string>[]) {
      expect(await ask(server.port, { headers })).toMatchObject({ status: 403 });
    }
    const own = { Host: host, Origin: `http://${host}` };
    expect(await ask(server.port, { path: '/book', headers: own })).toMatchObject({ status: 200 });
  });

  it.each(['POST', 'PUT', 'DELETE', 'OPTIONS'])('refuses %s', async (method) => {
    expect(await ask(server.port, { method })).toMatchObject({ status: 405 });
  });

  it.each([
    '/../package.json',
    '/..%2f..%2fpackage.json',
    '/%2e%2e/%2e%2e/package.json',
    '/reference/../../package.json',
    '/reference/..%5c..%5cpackage.json',
    '//etc/passwd',
    '/a%00.html',
    '/%zz',
    '/%252e%252e/%252e%252e/package.json',
    '/reference/%252e%252e%252f%252e%252e%252fpackage.json',
    '/reference/..\\..\\package.json',
    '/reference/%c0%ae%c0%ae/package.json',
    '/reference//etc/hostname.md',
    '/reference/',
    '/package.json',
    '/.git/config',
    `/${'a'.repeat(4000)}`,
  ])('gives nothing for %s', async (asked) => {
    const { status, body } = await ask(server.port, { path: asked });
    expect([400, 404, 414]).toContain(status);
    expect(body.length).toBeLessThan(100);
  });

  it('follows no link out of its folders', async () => {
    const link = path.join(BUNDLE, 'link-out-of-here.css');
    const outside = path.join(folder, 'outside.css');
    writeFileSync(outside, 'not for anyone');
    mkdirSync(BUNDLE, { recursive: true });
    rmSync(link, { force: true });
    symlinkSync(outside, link);
    try {
      const { status, body } = await ask(server.port, { path: '/link-out-of-here.css' });
      expect([status, body]).toEqual([404, 'not found\n']);
    } finally {
      rmSync(link, { force: true });
    }
  });

  it('listens on loopback only', async () => {
    const elsewhere = Object.values(networkInterfaces())
      .flat()
      .filter((address) => address !== undefined && address.family === 'IPv4' && !address.internal);
    for (const { address } of elsewhere as { readonly address: string }[]) {
      const failed = await new Promise<string>((resolve) => {
        const socket = connect({ host: address, port: server.port, timeout: 2000 });
        socket.on('connect', () => resolve('connected'));
        socket.on('timeout', () => resolve('no answer'));
        socket.on('error', () => resolve('refused'));
      });
      expect(failed).not.toBe('connected');
    }
  });

  it('cuts off headers that are too long, and requests that never end', async () => {
    await expect(
      ask(server.port, { headers: { Host: `localhost:${server.port}`, Long: 'x'.repeat(20_000) } }),
    ).resolves.toMatchObject({ status: 431 });
    const impatient = await startServer({ port: 0, slowest: 300 });
    try {
      const said = await new Promise<string>((resolve, reject) => {
        let text = '';
        const socket = connect({ host: '127.0.0.1', port: impatient.port });
        socket.on('data', (piece) => {
          text += piece.toString();
        });
        socket.on('close', () => resolve(text));
        socket.on('error', reject);
        socket.write('GET / HTTP/1.1\r\nHost: localhost\r\nSlow');
      });
      expect(said).toMatch(/^HTTP\/1\.1 408/);
    } finally {
      await impatient.close();
    }
  }, 20_000);

  it('says that a workbook is not there before it serves anything', async () => {
    await expect(startServer({ port: 0, book: path.join(folder, 'none.xlsx') })).rejects.toThrow(BookError);
  });

  it('takes the next port when the usual one is taken, but not another than the one asked for', async () => {
    const first = await startServer();
    const second = await startServer();
    expect(second.port).toBeGreaterThan(first.port);
    await expect(startServer({ port: second.port })).rejects.toThrow(/in use/);
    await Promise.all([first.close(), second.close()]);
  });

  it('knows its own names only', () => {
    const asked = { method: 'GET', url: '/', host: '127.0.0.1:80', origin: undefined };
    expect(judge(asked, 80)).toEqual({ pass: true, path: '/' });
    expect(judge({ ...asked, host: undefined }, 80)).toMatchObject({ status: 403 });
    expect(judge({ ...asked, host: '[::1]:80' }, 80)).toMatchObject({ status: 403 });
  });
});
