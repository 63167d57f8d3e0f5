import { existsSync, readFileSync } from 'node:fs';
import { generateCertificates, getHttpsServerOptions, verifyCertificates } from 'office-addin-dev-certs';
import { caCertificatePath, localhostCertificatePath, localhostKeyPath } from 'office-addin-dev-certs/lib/defaults.js';

export interface Certificates {
  readonly ca: Buffer;
  readonly cert: Buffer;
  readonly key: Buffer;
}

/** Whether this machine already trusts a development certificate for localhost that has not run out. */
export function isTrusted(): boolean {
  try {
    return existsSync(localhostCertificatePath) && verifyCertificates();
  } catch {
    // the check asks the system's own tools, which may not be there
    return false;
  }
}

/** Certificates for https://localhost; asks the system to trust them, which it may put to the user as a question. */
export async function trustedCertificates(): Promise<Certificates> {
  return await getHttpsServerOptions();
}

/** Certificates for https://localhost that nothing on this machine trusts: its trust store stays as it is. */
export async function privateCertificates(): Promise<Certificates> {
  await generateCertificates();
  return {
    ca: readFileSync(caCertificatePath),
    cert: readFileSync(localhostCertificatePath),
    key: readFileSync(localhostKeyPath),
  };
}
