import './taskpane.css';
import { mountPane } from '../../pane/mount.tsx';
import { noSheet } from './no-sheet.ts';
import { excelHost } from './pane-host.ts';

const element = document.getElementById('narrows');
if (element !== null) {
  if (typeof Office === 'undefined') mountPane(element, noSheet);
  else {
    void Office.onReady((info) =>
      mountPane(element, info.host === Office.HostType.Excel ? excelHost(Office.context.contentLanguage) : noSheet),
    );
  }
}
