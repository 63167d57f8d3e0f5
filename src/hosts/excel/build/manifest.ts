/** Where the development server serves the add-in; `manifest.xml` in the repository is written for it. */
export const DEVELOPMENT_ADDRESS = 'https://localhost:3000';

/** The manifest for an add-in served from `address`. An address that is not https is refused. */
export function manifestFor(source: string, address: string): string {
  if (!URL.canParse(address) || !address.startsWith('https://')) {
    throw new Error(`Excel loads add-ins only over https; "${address}" is not an https address.`);
  }
  return source.replaceAll(DEVELOPMENT_ADDRESS, address.replace(/\/+$/, ''));
}
