import {
  AddRangeProtectionFromContextMenuCommand,
  AddRangeProtectionFromSheetBarCommand,
  AddRangeProtectionFromToolbarCommand,
  ChangeSheetProtectionFromSheetBarCommand,
  DeleteRangeProtectionFromContextMenuCommand,
  DeleteWorksheetProtectionFormSheetBarCommand,
  SetRangeProtectionFromContextMenuCommand,
  ViewSheetPermissionFromContextMenuCommand,
  ViewSheetPermissionFromSheetBarCommand,
} from '@univerjs/preset-sheets-core';

/** The library's group in the menus of cells, rows and columns, which it keeps the name of to itself. */
const GROUP = 'sheet.contextMenu.permission';

const PROTECTION: readonly string[] = [
  GROUP,
  ...[
    AddRangeProtectionFromContextMenuCommand,
    SetRangeProtectionFromContextMenuCommand,
    DeleteRangeProtectionFromContextMenuCommand,
    ViewSheetPermissionFromContextMenuCommand,
    AddRangeProtectionFromSheetBarCommand,
    DeleteWorksheetProtectionFormSheetBarCommand,
    ChangeSheetProtectionFromSheetBarCommand,
    ViewSheetPermissionFromSheetBarCommand,
    AddRangeProtectionFromToolbarCommand,
  ].map(({ id }) => id),
];

/**
 * What hides the library's protection in every menu. It is made for a server that knows its users: here it would stop nobody,
 * and no file would be protected by it. What a file says of its own protection does not pass through it.
 */
export const noProtection = Object.fromEntries(PROTECTION.map((id) => [id, { hidden: true }]));
