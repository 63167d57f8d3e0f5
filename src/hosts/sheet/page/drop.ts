/**
 * Opens a workbook that is dropped on the page.
 *
 * @param open gets the file, and the names of others that were dropped with it: one workbook is open at a time
 */
export function acceptDrops(element: HTMLElement, open: (file: File, others: readonly string[]) => void): void {
  const carriesFiles = (event: DragEvent) => event.dataTransfer?.types.includes('Files') ?? false;
  // Taken in the capture phase: the grid has drag and drop of its own, which does not know of files.
  element.addEventListener(
    'dragover',
    (event) => {
      if (!carriesFiles(event)) return;
      event.preventDefault();
      event.stopPropagation();
      element.classList.add('nw-dropping');
    },
    true,
  );
  element.addEventListener('dragleave', (event) => {
    if (event.relatedTarget === null) element.classList.remove('nw-dropping');
  });
  element.addEventListener(
    'drop',
    (event) => {
      element.classList.remove('nw-dropping');
      const [file, ...others] = event.dataTransfer?.files ?? [];
      if (file === undefined) return;
      event.preventDefault();
      event.stopPropagation();
      open(
        file,
        others.map(({ name }) => name),
      );
    },
    true,
  );
}
