import validate from '@ooxml-tools/validate';

/**
 * What the checks of the Open XML SDK (schemas of ISO/IEC 29500-1 and of the later extensions, rules between parts) find
 * in a workbook; the spreadsheet program offers to repair such files, or does not open them.
 * @param bytes an .xlsx file
 * @returns part, place and fault, one line each; a single line if the package cannot even be opened
 */
export async function faultsOfFile(bytes: Uint8Array): Promise<string[]> {
  try {
    const found = await validate(bytes, 'xlsx', 'Microsoft365');
    return found.map(({ path, description }) => `${path.partUri} ${path.xpath}: ${description}`);
  } catch (error) {
    return [`cannot be opened: ${String(error)}`];
  }
}
