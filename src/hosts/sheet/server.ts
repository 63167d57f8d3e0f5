import { createReadStream } from 'node:fs';
import { realpath, stat } from 'node:fs/promises';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import path from 'node:path';
import { BUNDLE, ROOT } from './bundle.ts';
import { judge, SAFE_HEADERS } from './guard.ts';
import { packedBook } from './packed.ts';

const TEMPLATE = path.join(ROOT, 'templates/narrows-template.xlsx');
/** Workbooks to begin with, by the paths that the page asks for. */
const STARTS: ReadonlyMap<string, string> = new Map(
  ['narrows-empty', 'example-estimator', 'example-engineer', 'example-trainee'].map((name) => [
    `/templates/${name}.xlsx`,
    path.join(ROOT, `templates/${name}.xlsx`),
  ]),
);
const REFERENCE = path.join(ROOT, 'docs/reference');

/** First port tried when none is asked for; the next ones follow. */
const FIRST_PORT = 4173;
const PORTS_TRIED = 50;
/** A workbook above this size is refused before it is read. */
const BOOK_BYTES = 64 * 2 ** 20;
const REQUEST_HEADER_BYTES = 16 * 1024;
/** A request that is not complete by then is cut off, ms. */
const SLOWEST_REQUEST = 15_000;
/** One page asks for a handful of files at a time. */
const MOST_CONNECTIONS = 100;

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.woff2': 'font/woff2',
  '.map': 'application/json',
  '.md': 'text/plain; charset=utf-8',
};
const BYTES = 'application/octet-stream';
const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

export interface SheetServer {
  readonly port: number;
  readonly address: string;
  close(): Promise<void>;
}

/** A workbook that cannot be served: too large, or not there. */
export class BookError extends Error {}

/**
 * Serves the built page, the workbook and the reference pages on 127.0.0.1.
 *
 * @param book path of the workbook to open; the template if absent
 * @param slowest time within which a request has to have come in whole, ms; 15 s if absent
 * @param port port to listen on; 0 takes any free one; the first free from 4173 if absent
 * @throws BookError if the workbook is missing or too large
 */
export async function startServer(
  options: { readonly book?: string; readonly port?: number; readonly slowest?: number } = {},
): Promise<SheetServer> {
  const slowest = options.slowest ?? SLOWEST_REQUEST;
  if (options.book !== undefined) await checkBook(options.book);
  const server = createServer({
    maxHeaderSize: REQUEST_HEADER_BYTES,
    headersTimeout: slowest,
    requestTimeout: slowest,
    connectionsCheckingInterval: Math.max(slowest / 4, 100),
  });
  server.maxConnections = MOST_CONNECTIONS;
  const port = await listen(server, options.port);
  server.on('request', (request, response) => {
    answer(request, response, port, options.book).catch(() => refuse(response, 500, 'internal'));
  });
  // Read while the browser starts; what goes wrong is told when the page asks for it.
  const first = options.book ?? TEMPLATE;
  stat(first)
    .then((found) => packedBook(first, found))
    .catch(() => undefined);
  return {
    port,
    address: `http://localhost:${port}/`,
    close: () =>
      new Promise((resolve) => {
        server.closeAllConnections();
        server.close(() => resolve());
      }),
  };
}

async function checkBook(book: string): Promise<void> {
  const found = await stat(book).catch(() => undefined);
  if (!found?.isFile()) throw new BookError(`${book}: no such file`);
  if (found.size > BOOK_BYTES) throw new BookError(`${book}: larger than ${BOOK_BYTES / 2 ** 20} MiB`);
}

async function listen(server: Server, wanted: number | undefined): Promise<number> {
  const candidates = wanted === undefined ? Array.from({ length: PORTS_TRIED }, (_, i) => FIRST_PORT + i) : [wanted];
  for (const candidate of candidates) {
    const taken = await tryPort(server, candidate);
    if (taken === undefined) {
      const address = server.address();
      if (address !== null && typeof address === 'object') return address.port;
    } else if (taken.code !== 'EADDRINUSE') throw taken;
  }
  throw new Error(`port ${candidates[0]}${candidates.length > 1 ? ` and the next ${PORTS_TRIED - 1}` : ''} in use`);
}

function tryPort(server: Server, port: number): Promise<NodeJS.ErrnoException | undefined> {
  return new Promise((resolve) => {
    const failed = (error: NodeJS.ErrnoException) => {
      server.off('listening', listening);
      resolve(error);
    };
    const listening = () => {
      server.off('error', failed);
      resolve(undefined);
    };
    server.once('error', failed);
    server.once('listening', listening);
    server.listen(port, '127.0.0.1');
  });
}

async function answer(
  request: IncomingMessage,
  response: ServerResponse,
  port: number,
  book: string | undefined,
): Promise<void> {
  const verdict = judge(
    {
      method: request.method ?? '',
      url: request.url ?? '',
      host: request.headers.host,
      origin: request.headers.origin,
    },
    port,
  );
  if (!verdict.pass) return refuse(response, verdict.status, verdict.why);
  const head = request.method === 'HEAD';
  if (verdict.path === '/book') {
    // Which workbook to load: its name, so that the page can save under the same one.
    const name = book === undefined ? '' : path.basename(book);
    return text(response, JSON.stringify({ name }), 'application/json', head);
  }
  if (verdict.path === '/book.packed') {
    const from = book ?? TEMPLATE;
    const found = await stat(from).catch(() => undefined);
    if (!found?.isFile()) return refuse(response, 404, 'not found');
    if (found.size > BOOK_BYTES) return refuse(response, 413, 'too large');
    const packed = await packedBook(from, found);
    response.writeHead(200, { ...SAFE_HEADERS, 'Content-Type': BYTES, 'Content-Length': packed.length });
    response.end(head ? undefined : packed);
    return;
  }
  if (verdict.path === '/template.xlsx') return file(request, response, TEMPLATE, XLSX);
  const start = STARTS.get(verdict.path);
  if (start !== undefined) return file(request, response, start, XLSX);
  const asked = verdict.path.endsWith('/') ? `${verdict.path}index.html` : verdict.path;
  const [folder, relative] = asked.startsWith('/reference/')
    ? [REFERENCE, asked.slice('/reference/'.length)]
    : [BUNDLE, asked.slice(1)];
  const full = path.join(folder, relative);
  const type = TYPES[path.extname(full)];
  if (type === undefined || !full.startsWith(folder + path.sep)) return refuse(response, 404, 'not found');
  // A link in the folder that leads out of it is not followed.
  const [real, inside] = await Promise.all([full, folder].map((one) => realpath(one).catch(() => '')));
  if (!real || !inside || !real.startsWith(inside + path.sep)) return refuse(response, 404, 'not found');
  return file(request, response, full, type);
}

async function file(request: IncomingMessage, response: ServerResponse, full: string, type: string): Promise<void> {
  const head = request.method === 'HEAD';
  const found = await stat(full).catch(() => undefined);
  if (!found?.isFile()) return refuse(response, 404, 'not found');
  if (found.size > BOOK_BYTES) return refuse(response, 413, 'too large');
  // Lets a browser keep the page and what it compiled of it, and ask each time whether that still holds.
  const mark = `"${found.size.toString(36)}-${Math.round(found.mtimeMs).toString(36)}"`;
  if (request.headers['if-none-match'] === mark) {
    response.writeHead(304, { ...SAFE_HEADERS, ETag: mark });
    response.end();
    return;
  }
  response.writeHead(200, { ...SAFE_HEADERS, ETag: mark, 'Content-Type': type, 'Content-Length': found.size });
  if (head) {
    response.end();
    return;
  }
  const stream = createReadStream(full);
  stream.on('error', () => response.destroy());
  stream.pipe(response);
}

function text(response: ServerResponse, body: string, type: string, head: boolean): void {
  response.writeHead(200, { ...SAFE_HEADERS, 'Content-Type': type, 'Content-Length': Buffer.byteLength(body) });
  response.end(head ? undefined : body);
}

function refuse(response: ServerResponse, status: number, why: string): void {
  if (response.headersSent) {
    response.destroy();
    return;
  }
  response.writeHead(status, { ...SAFE_HEADERS, 'Content-Type': 'text/plain; charset=utf-8' });
  response.end(`${why}\n`);
}
