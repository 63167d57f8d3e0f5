import { parseArgs } from 'node:util';
import { parseNumber } from 'office-addin-cli';
import { advice } from './advice.ts';
import { type Certificates, isTrusted, privateCertificates, trustedCertificates } from './certificates.ts';
import { startAddInServer } from './server.ts';

const DEFAULT_PORT = 3000;
const USAGE = `Usage: npm run excel [-- --port N] [-- --untrusted]

Builds the Excel add-in, serves it on this machine only, and says how to bring it to Excel.
  --port N      port to use; ${DEFAULT_PORT} if left out, as manifest.xml has it
  --untrusted   leaves this machine's list of trusted certificates as it is; the browser will ask
  --help        prints this
`;

/** Exit status for a command line that makes no sense, as the command line tool uses it. */
const BAD_INPUT = 2;

/**
 * Serves the add-in until it is stopped.
 * @param args words after `npm run excel --`
 */
export async function serveAddIn(args: readonly string[]): Promise<void> {
  const request = read(args);
  if (request === undefined) return;
  try {
    const certificates = await certificatesFor(request.untrusted);
    console.log('Building the add-in ...');
    const server = await startAddInServer(request.port, certificates);
    console.log(`The add-in is at ${server.address} (this machine only; stop with Ctrl+C)`);
    for (const line of advice(process.platform, server.manifest)) console.log(`- ${line}`);
    for (const signal of ['SIGINT', 'SIGTERM'] as const) {
      process.once(signal, () => void server.close().then(() => process.exit(0)));
    }
  } catch (error) {
    console.error(error instanceof Error ? error.message : String(error));
    process.exitCode = 1;
  }
}

function read(args: readonly string[]): { readonly port: number; readonly untrusted: boolean } | undefined {
  try {
    const { values } = parseArgs({
      args: [...args],
      options: { port: { type: 'string' }, untrusted: { type: 'boolean' }, help: { type: 'boolean' } },
    });
    if (values.help) {
      console.log(USAGE);
      return undefined;
    }
    const port = parseNumber(values.port, '--port takes a number') ?? DEFAULT_PORT;
    if (!Number.isInteger(port) || port < 1 || port > 65_535) throw new Error('--port takes a number from 1 to 65535');
    return { port, untrusted: values.untrusted === true };
  } catch (error) {
    console.error(error instanceof Error ? error.message : String(error));
    console.error(USAGE);
    process.exitCode = BAD_INPUT;
    return undefined;
  }
}

async function certificatesFor(untrusted: boolean): Promise<Certificates> {
  if (untrusted) return await privateCertificates();
  if (!isTrusted()) {
    console.log(
      'Excel loads add-ins over https only. Making a certificate for localhost and asking this system to trust',
    );
    console.log('it; to undo that later: npx office-addin-dev-certs uninstall. To leave it out: -- --untrusted.');
  }
  return await trustedCertificates();
}
