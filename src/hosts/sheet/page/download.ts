export const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

/** Hands a file to the browser to keep. */
export function download(content: Uint8Array | string, name: string, type = XLSX): void {
  const address = URL.createObjectURL(new Blob([content as Uint8Array<ArrayBuffer> | string], { type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // The download has begun by the next turn; the bytes need not stay in memory.
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
