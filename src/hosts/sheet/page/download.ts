const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

/** Hands a file to the browser to keep. */
export function download(bytes: Uint8Array, name: string): void {
  const address = URL.createObjectURL(new Blob([bytes as Uint8Array<ArrayBuffer>], { type: XLSX }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // The download has begun by the next turn; the bytes need not stay in memory.
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
