/** The name to save a workbook under: what is written is an .xlsx file, whatever it was read from. */
export function savedName(name: string): string {
  return /\.xlsx$/i.test(name) ? name : `${name.replace(/\.[a-z][a-z0-9]{0,4}$/i, '')}.xlsx`;
}
