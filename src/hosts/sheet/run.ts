import { spawn } from 'node:child_process';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { buildBundle, isStale } from './bundle.ts';
import { BookError, startServer } from './server.ts';

const USAGE = `Usage: npm start [-- BOOK.xlsx] [-- --port N] [-- --open]

Serves the spreadsheet with the NARROWS functions on this machine only, and prints its address.
  BOOK.xlsx   workbook to open; the template workbook if left out
  --port N    port to use; the first free one from 4173 if left out
  --open      opens the address in the default browser
  --help      prints this
`;

/** Exit status for a command line or a workbook that makes no sense, as the command line tool uses it. */
const BAD_INPUT = 2;

interface Request {
  readonly book?: string;
  readonly port?: number;
  readonly open: boolean;
}

/**
 * Starts the embedded sheet: builds the page if it has to, serves it, prints the address, and stays until it is stopped.
 *
 * @param args words after `npm start --`
 */
export async function runSheet(args: readonly string[]): Promise<void> {
  const request = read(args);
  if (request === undefined) return;
  try {
    if (await isStale()) await buildWithProgress();
    const server = await startServer(request);
    console.log(`Narrows is at ${server.address} (this machine only; stop with Ctrl+C)`);
    for (const signal of ['SIGINT', 'SIGTERM'] as const) {
      process.once(signal, () => void server.close().then(() => process.exit(0)));
    }
    if (request.open) openBrowser(server.address);
  } catch (error) {
    console.error(error instanceof Error ? error.message : String(error));
    process.exitCode = error instanceof BookError ? BAD_INPUT : 1;
  }
}

function read(args: readonly string[]): Request | undefined {
  try {
    const { values, positionals } = parseArgs({
      args: [...args],
      allowPositionals: true,
      options: { port: { type: 'string' }, open: { type: 'boolean' }, help: { type: 'boolean' } },
    });
    if (values.help) {
      console.log(USAGE);
      return undefined;
    }
    if (positionals.length > 1) throw new Error(`one workbook at a time: ${positionals.join(', ')}`);
    const book = positionals[0];
    const port = values.port === undefined ? undefined : Number(values.port);
    if (port !== undefined && !(Number.isInteger(port) && port >= 0 && port <= 65535))
      throw new Error(`--port ${values.port}: a port is a whole number from 0 to 65535`);
    return {
      ...(book === undefined ? {} : { book: path.resolve(book) }),
      ...(port === undefined ? {} : { port }),
      open: values.open ?? false,
    };
  } catch (error) {
    console.error(`${error instanceof Error ? error.message : error}\n\n${USAGE}`);
    process.exitCode = BAD_INPUT;
    return undefined;
  }
}

/** One line that fills up on a terminal; a line at the start and one at the end elsewhere. */
async function buildWithProgress(): Promise<void> {
  const began = Date.now();
  const terminal = process.stderr.isTTY;
  const label = 'Building the page, about half a minute the first time';
  if (!terminal) process.stderr.write(`${label} …\n`);
  await buildBundle((share) => {
    if (terminal) process.stderr.write(`\r${label}: ${Math.round(share * 100)} % `);
  });
  process.stderr.write(
    `${terminal ? '\r' : ''}Built the page in ${Math.round((Date.now() - began) / 1000)} s.${terminal ? '\x1b[K' : ''}\n`,
  );
}

function openBrowser(address: string): void {
  const [command, ...args]: [string, ...string[]] =
    process.platform === 'darwin'
      ? ['open', address]
      : process.platform === 'win32'
        ? ['cmd', '/c', 'start', '', address]
        : ['xdg-open', address];
  const child = spawn(command, args, { stdio: 'ignore', detached: true });
  child.on('error', () => console.error(`No browser could be opened; go to ${address}`));
  child.unref();
}
