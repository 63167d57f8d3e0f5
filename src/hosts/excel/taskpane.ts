import './taskpane.css';
import { mountPane } from '../../pane/mount.tsx';
import { noSheet } from './no-sheet.ts';
import { excelHost } from './pane-host.ts';
import { excelSeparators } from './separators.ts';

const element = document.getElementById('narrows');
if (element !== null) {
  if (typeof Office === 'undefined') mountPane(element, noSheet);
  else {
    void Office.onReady(async ({ host }) => {
      if (host !== Office.HostType.Excel) return mountPane(element, noSheet);
      return mountPane(element, excelHost(await excelSeparators(Office.context.contentLanguage)));
    });
  }
}
