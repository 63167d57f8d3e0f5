import { orderFaults } from './manifest-order.ts';
import { findAll, parseXml, walk, type XmlElement } from './xml-tree.ts';

/** Limits from the platform's published reference of the manifest: the pages of the elements of the same name. */
const MAX_PROVIDER = 125;
const MAX_DISPLAY_NAME = 125;
const MAX_DESCRIPTION = 250;
const MAX_SHORT_STRING = 125;
const MAX_LONG_STRING = 250;
const MAX_URL = 2048;
const MAX_ID = 125;
const MAX_RESID = 32;
const REQUIRED_ICON_SIZES = ['16', '32', '80'];
const ICON_SIZES = new Set(['16', '20', '24', '32', '40', '48', '64', '80']);
const PERMISSIONS = new Set(['Restricted', 'ReadDocument', 'ReadAllDocument', 'WriteDocument', 'ReadWriteDocument']);

const GUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/i;
/** One to four parts of at most five digits. */
const VERSION = /^\d{1,5}(\.\d{1,5}){0,3}$/;
/** BCP 47, language and region. */
const LOCALE = /^[a-z]{2,3}-[A-Z]{2}$/;
const NAMESPACES: Readonly<Record<string, string>> = {
  xmlns: 'http://schemas.microsoft.com/office/appforoffice/1.1',
  'xmlns:xsi': 'http://www.w3.org/2001/XMLSchema-instance',
  'xmlns:bt': 'http://schemas.microsoft.com/office/officeappbasictypes/1.0',
  'xsi:type': 'TaskPaneApp',
};
const OVERRIDES: Readonly<Record<string, string>> = {
  xmlns: 'http://schemas.microsoft.com/office/taskpaneappversionoverrides',
  'xsi:type': 'VersionOverridesV1_0',
};
/** Which resource list an element's resid looks into. */
const RESOURCE_OF: Readonly<Record<string, string>> = {
  Runtime: 'bt:Urls',
  SourceLocation: 'bt:Urls',
  LearnMoreUrl: 'bt:Urls',
  FunctionFile: 'bt:Urls',
  'bt:Image': 'bt:Images',
  Label: 'bt:ShortStrings',
  Title: 'bt:ShortStrings',
  Namespace: 'bt:ShortStrings',
  Description: 'bt:LongStrings',
};

/**
 * Faults of an add-in manifest in words; empty when it keeps the rules. Covers: well-formed XML; namespaces and types;
 * required elements, their order and number; GUID, version and locale; lengths of names, texts, ids and addresses;
 * https everywhere, one domain; unique ids; every resid resolved in the right list and every resource used; icon sizes;
 * the rules of a shared runtime with custom functions. Not covered: what only the store checks, such as reachable
 * addresses and the pictures themselves, and elements that this add-in does not use.
 */
export function manifestFaults(source: string): readonly string[] {
  let root: XmlElement;
  try {
    root = parseXml(source);
  } catch (error) {
    return [`not well-formed XML: ${error instanceof Error ? error.message.split('\n')[0] : String(error)}`];
  }
  if (root.name !== 'OfficeApp') return [`the root element is OfficeApp, not ${root.name}`];
  return [
    ...attributes(root, NAMESPACES),
    ...findAll(root, 'VersionOverrides').flatMap((overrides) => attributes(overrides, OVERRIDES)),
    ...order(root, []),
    ...fields(root),
    ...addresses(root),
    ...identifiers(root),
    ...resources(root),
    ...icons(root),
    ...sharedRuntime(root),
  ];
}

function attributes(element: XmlElement, wanted: Readonly<Record<string, string>>): readonly string[] {
  return Object.entries(wanted)
    .filter(([name, value]) => element.attributes[name] !== value)
    .map(([name, value]) => `${element.name} needs ${name}="${value}"`);
}

function order(element: XmlElement, parents: readonly string[]): readonly string[] {
  const path = [...parents, element.name];
  const names = element.children.map((child) => child.name);
  return [...orderFaults(path, names), ...element.children.flatMap((child) => order(child, path))];
}

function fields(root: XmlElement): readonly string[] {
  const text = (name: string) => findAll(root, name)[0]?.text ?? '';
  const preset = (name: string) => findAll(root, name)[0]?.attributes.DefaultValue ?? '';
  const faults: string[] = [];
  const check = (holds: boolean, words: string) => {
    if (!holds) faults.push(words);
  };
  const within = (value: string, most: number) => value.length > 0 && value.length <= most;
  check(GUID.test(text('Id')), 'Id is a GUID with hyphens');
  check(VERSION.test(text('Version')), 'Version has one to four parts of at most five digits');
  check(LOCALE.test(text('DefaultLocale')), 'DefaultLocale is a language tag such as en-US');
  check(within(text('ProviderName'), MAX_PROVIDER), `ProviderName has 1 to ${MAX_PROVIDER} characters`);
  check(within(preset('DisplayName'), MAX_DISPLAY_NAME), `DisplayName has 1 to ${MAX_DISPLAY_NAME} characters`);
  check(within(preset('Description'), MAX_DESCRIPTION), `Description has 1 to ${MAX_DESCRIPTION} characters`);
  check(PERMISSIONS.has(text('Permissions')), 'Permissions is one of the five levels');
  for (const host of findAll(root, 'Hosts', 'Host')) check(host.attributes.Name === 'Workbook', 'the host is Workbook');
  for (const set of findAll(root, 'Requirements', 'Sets', 'Set')) {
    const { Name = '', MinVersion = '' } = set.attributes;
    check(/^[A-Za-z]+$/.test(Name) && /^\d+\.\d+$/.test(MinVersion), `requirement set "${Name}" has a MinVersion n.n`);
  }
  return faults;
}

function addresses(root: XmlElement): readonly string[] {
  const faults: string[] = [];
  const origins = new Set<string>();
  for (const element of walk(root)) {
    const value = element.attributes.DefaultValue ?? (element.name === 'AppDomain' ? element.text : '');
    const isAddress = /Url$|^SourceLocation$|^AppDomain$|^bt:(?:Url|Image)$/.test(element.name) && value !== '';
    if (!isAddress) continue;
    if (value.length > MAX_URL) faults.push(`${element.name}: an address has at most ${MAX_URL} characters`);
    if (!URL.canParse(value) || !value.startsWith('https://')) {
      faults.push(`${element.name}: "${value}" is not an https address`);
    } else origins.add(new URL(value).origin);
  }
  if (origins.size > 1) faults.push(`all addresses share one domain, found ${[...origins].join(', ')}`);
  return faults;
}

function identifiers(root: XmlElement): readonly string[] {
  const faults: string[] = [];
  const seen = new Set<string>();
  for (const element of walk(root)) {
    const { id } = element.attributes;
    if (id === undefined || element.name === 'OfficeTab') continue;
    const most = element.name.startsWith('bt:') ? MAX_RESID : MAX_ID;
    if (id === '' || id.length > most) faults.push(`${element.name} id "${id}" has 1 to ${most} characters`);
    if (seen.has(id)) faults.push(`${element.name} id "${id}" is used twice`);
    seen.add(id);
  }
  return faults;
}

function resources(root: XmlElement): readonly string[] {
  const faults: string[] = [];
  const used = new Set<string>();
  const [lists] = findAll(root, 'VersionOverrides', 'Resources');
  if (lists === undefined) return ['VersionOverrides has no Resources'];
  const texts = new Map<string, string>();
  for (const list of lists.children) {
    for (const entry of list.children) {
      const { id = '', DefaultValue = '' } = entry.attributes;
      texts.set(`${list.name} ${id}`, DefaultValue);
      const most = { 'bt:ShortStrings': MAX_SHORT_STRING, 'bt:LongStrings': MAX_LONG_STRING }[list.name] ?? MAX_URL;
      if (DefaultValue === '' || DefaultValue.length > most) {
        faults.push(`resource "${id}" has 1 to ${most} characters, not ${DefaultValue.length}`);
      }
    }
  }
  for (const element of walk(root)) {
    const { resid } = element.attributes;
    if (resid === undefined) continue;
    const key = `${RESOURCE_OF[element.name] ?? '(none)'} ${resid}`;
    if (resid.length > MAX_RESID) faults.push(`resid "${resid}" has at most ${MAX_RESID} characters`);
    if (!texts.has(key)) faults.push(`${element.name} resid "${resid}" is not among the ${RESOURCE_OF[element.name]}`);
    used.add(key);
  }
  for (const key of texts.keys()) if (!used.has(key)) faults.push(`resource "${key}" is not used`);
  return faults;
}

function icons(root: XmlElement): readonly string[] {
  const faults: string[] = [];
  for (const icon of walk(root)) {
    if (icon.name !== 'Icon') continue;
    const sizes = icon.children.map((image) => image.attributes.size ?? '');
    for (const size of REQUIRED_ICON_SIZES) if (!sizes.includes(size)) faults.push(`an Icon lacks size ${size}`);
    for (const size of sizes) if (!ICON_SIZES.has(size)) faults.push(`an Icon has no size "${size}"`);
  }
  return faults;
}

/** A shared runtime serves one pane: page, pane and runtime are the same resource, and no action names a pane of its own. */
function sharedRuntime(root: XmlElement): readonly string[] {
  const faults: string[] = [];
  const sets = findAll(root, 'Requirements', 'Sets', 'Set').map((set) => set.attributes.Name);
  for (const name of ['SharedRuntime', 'CustomFunctionsRuntime']) {
    if (!sets.includes(name)) faults.push(`the requirement set ${name} is not asked for`);
  }
  for (const host of findAll(root, 'VersionOverrides', 'Hosts', 'Host')) {
    const [runtime] = findAll(host, 'Runtimes', 'Runtime');
    if (runtime?.attributes.lifetime !== 'long') faults.push('the runtime is shared only with lifetime="long"');
    for (const element of walk(host)) {
      if (element.name === 'TaskpaneId') faults.push('an action in a shared runtime names no pane of its own');
      const sources = ['Page', 'Action'].includes(element.name) ? findAll(element, 'SourceLocation') : [];
      for (const source of sources) {
        if (source.attributes.resid !== runtime?.attributes.resid) {
          faults.push(`${element.name} is not the page of the shared runtime`);
        }
      }
    }
  }
  return faults;
}
