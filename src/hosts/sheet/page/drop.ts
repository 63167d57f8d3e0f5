/** Opens a workbook that is dropped on the page. */
export function acceptDrops(element: HTMLElement, open: (file: File) => void): void {
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
      const file = event.dataTransfer?.files[0];
      if (file === undefined) return;
      event.preventDefault();
      event.stopPropagation();
      open(file);
    },
    true,
  );
}
