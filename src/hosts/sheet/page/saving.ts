/** Where the browser cannot tell when it is idle, ms after the start. */
const SOON_MS = 2_000;

/**
 * What saving takes that the first look at a workbook does not.
 *
 * @throws Error in words where it is not there and cannot be fetched
 */
export async function savingCode() {
  try {
    const [{ saveBook }, { lossesOfLetters, lossesOfSave }, { lossesOfUnknown }] = await Promise.all([
      import('../save/save-book.ts'),
      import('../save/losses.ts'),
      import('../../../workbook/losses.ts'),
    ]);
    return { saveBook, lossesOfLetters, lossesOfSave, lossesOfUnknown };
  } catch (error) {
    if (!(error instanceof Error) || error.name !== 'ChunkLoadError') throw error;
    throw new Error(
      'the part of the page that writes files could not be fetched. If the program that serves this page no longer runs, start it again (npm start), then save again. Leave this page open: your changes are in it.',
    );
  }
}

/**
 * Fetches what saving takes once the page has nothing else to do, so that the work can be saved when the server is gone.
 * Where that fails a save tries again.
 */
export function fetchSavingWhenIdle(): void {
  const fetchIt = () => void savingCode().catch(() => undefined);
  // not every browser has it
  if ('requestIdleCallback' in window) requestIdleCallback(fetchIt);
  else setTimeout(fetchIt, SOON_MS);
}
