/**
 * What to do next, by platform: how a manifest is brought to Excel by hand, from the platform's published pages on
 * side-loading.
 * @param manifest path of the manifest to load
 */
export function advice(platform: NodeJS.Platform, manifest: string): readonly string[] {
  const web = `Excel on the web: open a workbook, then Home > Add-ins > More Settings > Upload My Add-in, and choose ${manifest}.`;
  const ribbon = 'Then choose Open Narrows on the Home tab, or type =NARROWS. into a cell.';
  if (platform === 'darwin') {
    return [
      `Excel for Mac: copy ${manifest} into ~/Library/Containers/com.microsoft.Excel/Data/Documents/wef (make the folder if it is missing), start Excel again, and choose Narrows under Home > Add-ins.`,
      web,
      ribbon,
    ];
  }
  if (platform === 'win32') {
    return [
      `Excel for Windows: put ${manifest} into a shared folder, name that folder under File > Options > Trust Center > Trusted Add-in Catalogs, start Excel again, and choose Narrows under Home > Add-ins > Shared Folder.`,
      web,
      ribbon,
    ];
  }
  return [
    'There is no Excel for this system. Without Excel, `npm start` opens the embedded sheet with the same functions.',
    web,
    ribbon,
  ];
}
