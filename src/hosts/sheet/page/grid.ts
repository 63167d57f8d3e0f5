import { type IWorkbookData, LocaleType, LogLevel, Univer, UniverInstanceType } from '@univerjs/core';
import { FUniver } from '@univerjs/core/facade';
import { UniverSheetsCorePreset } from '@univerjs/preset-sheets-core';
import enUS from '@univerjs/preset-sheets-core/locales/en-US';
import '@univerjs/preset-sheets-core/lib/index.css';

export interface Grid {
  readonly api: FUniver;
  /** Shows another workbook in place of the one that is open. */
  show(book: Partial<IWorkbookData>): void;
}

/** The library's grid in `container`; light or dark as the person's system asks. */
export function createGrid(container: HTMLElement): Grid {
  const dark = matchMedia('(prefers-color-scheme: dark)');
  const univer = new Univer({
    locale: LocaleType.EN_US,
    locales: { [LocaleType.EN_US]: enUS },
    logLevel: LogLevel.WARN,
    darkMode: dark.matches,
  });
  const preset = UniverSheetsCorePreset({
    container,
    ribbonType: 'simple',
    disableAutoFocus: true,
    footer: { menus: false, zoomSlider: true },
  });
  for (const plugin of preset.plugins) {
    if (Array.isArray(plugin)) univer.registerPlugin(plugin[0], plugin[1]);
    else univer.registerPlugin(plugin);
  }
  const api = FUniver.newAPI(univer);
  dark.addEventListener('change', () => api.toggleDarkMode(dark.matches));
  return {
    api,
    show(book) {
      const open = api.getActiveWorkbook();
      if (open) api.disposeUnit(open.getId());
      univer.createUnit(UniverInstanceType.UNIVER_SHEET, book);
    },
  };
}
