import { readFileSync } from 'node:fs';
import { functions } from '../../../functions/index.ts';
import { functionsJson } from './functions-json.ts';
import { iconPng } from './icon.ts';
import { manifestFor } from './manifest.ts';

const ICON_SIZES = [16, 32, 64, 80];
/** Where Excel's script comes from: its own CDN, as the store asks. */
const OFFICE_SCRIPT = /^.*<script src="https:\/\/appsforoffice[^\n]*\n/m;
const OFFICE_SOURCES = / https:\/\/(?:appsforoffice\.microsoft\.com|ajax\.aspnetcdn\.com)/g;
const root = new URL('../../../../', import.meta.url);

function text(path: string): string {
  return readFileSync(new URL(path, root), 'utf8');
}

/**
 * Every file of the built add-in beside its scripts and styles, by name: what Excel reads of the functions, manifest,
 * pages and icons. `preview.html` is the pane without Excel's script, for looking at it without Excel or a network.
 */
export function addInFiles(address: string): ReadonlyMap<string, string | Buffer> {
  const page = text('src/hosts/excel/taskpane.html');
  return new Map<string, string | Buffer>([
    ['manifest.xml', manifestFor(text('manifest.xml'), address)],
    ['functions.json', `${JSON.stringify(functionsJson(functions, address), null, 2)}\n`],
    ['taskpane.html', page],
    ['preview.html', page.replace(OFFICE_SCRIPT, '').replace(OFFICE_SOURCES, '')],
    ...ICON_SIZES.map((size): [string, Buffer] => [`icons/icon-${size}.png`, iconPng(size)]),
  ]);
}
