/** The add-in as it is published: built once, then looked at. */
import { createContext, runInContext } from 'node:vm';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { functions } from '../../src/functions/index.ts';
import { manifestFaults } from '../../src/hosts/excel/build/manifest-rules.ts';
import { findAll, parseXml, walk } from '../../src/hosts/excel/build/xml-tree.ts';
import { createStandIn } from '../../src/hosts/excel/stand-in.ts';
import { slug } from '../../tools/docs/page.ts';
import { type BuiltAddIn, buildAddIn } from './build.ts';

const ADDRESS = 'https://tables.example/narrows';
/** What the pane, the functions and the template may weigh together, gzipped. */
const MOST_BYTES = 400_000;
const GZIP_LEVEL = 9;

let built: BuiltAddIn;
const read = (name: string) => built.read(name);
const names = () => built.names();

beforeAll(async () => {
  built = await buildAddIn(ADDRESS);
});

afterAll(() => built?.remove());

describe('the built add-in', () => {
  it('weighs less than 400 KB gzipped, template included', () => {
    const scripts = names().filter((name) => /\.(?:js|css)$/.test(name));
    const bytes = scripts.reduce((sum, name) => sum + gzipSync(read(name), { level: GZIP_LEVEL }).length, 0);
    expect(scripts).toContain('functions.js');
    expect(scripts).toContain('taskpane.js');
    expect(bytes).toBeLessThan(MOST_BYTES);
  });

  it('registers every function while its script runs, not later', () => {
    const { bodies, runtime } = createStandIn();
    const context = createContext({ CustomFunctions: runtime, console, URL, self: {} });
    runInContext(read('functions.js').toString('utf8'), context, { filename: 'functions.js' });
    expect([...bodies.keys()].sort()).toEqual(functions.map((entry) => entry.id).sort());
    // 1 in = 25.4 mm exactly (international inch)
    expect(bodies.get('CONVERT')?.(1, 'in', 'mm', { address: 'Sheet1!A1' })).toBeCloseTo(25.4, 9);
  });

  it('waits for Excel’s runtime where it is late', () => {
    const { bodies, runtime } = createStandIn();
    const waiting: (() => void)[] = [];
    const context = createContext({ Office: { onReady: (ready: () => void) => waiting.push(ready) }, URL, self: {} });
    runInContext(read('functions.js').toString('utf8'), context, { filename: 'functions.js' });
    expect(bodies.size).toBe(0);
    Object.assign(context, { CustomFunctions: runtime });
    for (const ready of waiting) ready();
    expect(bodies.size).toBe(functions.length);
  });

  it('describes the same functions in functions.json', () => {
    const json = JSON.parse(read('functions.json').toString('utf8')) as {
      functions: { id: string; helpUrl: string }[];
    };
    expect(json.functions.map((entry) => entry.id)).toEqual(functions.map((entry) => entry.id));
    for (const { helpUrl, id } of json.functions) {
      expect(helpUrl).toBe(`${ADDRESS}/docs/reference/${id}.html`);
      expect(read(`docs/reference/${id}.html`).toString('utf8')).toContain(`<h1 id="${slug(id)}">`);
    }
  });

  it('holds every file that its manifest and its page name', () => {
    const source = read('manifest.xml').toString('utf8');
    expect(manifestFaults(source)).toEqual([]);
    const present = new Set(names());
    for (const element of walk(parseXml(source))) {
      const address = element.attributes.DefaultValue;
      if (address?.startsWith('https://')) expect(present).toContain(address.slice(ADDRESS.length + 1));
    }
    const page = read('taskpane.html').toString('utf8');
    for (const [, file = ''] of page.matchAll(/(?:src|href)="(?!https:)([^"]+)"/g)) expect(present).toContain(file);
  });

  it('takes Excel’s script from its own CDN, and no other script from anywhere else', () => {
    const outside = (page: string) => [
      ...read(page)
        .toString('utf8')
        .matchAll(/(?:src|href)="(https?:[^"]+)"/g),
    ];
    expect(outside('taskpane.html').map((match) => match[1])).toEqual([
      'https://appsforoffice.microsoft.com/lib/1/hosted/office.js',
    ]);
    expect(outside('preview.html')).toEqual([]);
    expect(read('preview.html').toString('utf8')).not.toContain('https://');
    for (const page of ['taskpane.html', 'preview.html', 'docs/index.html']) {
      expect(read(page).toString('utf8'), 'no inline script').not.toMatch(/<script(?![^>]*\ssrc=)/);
    }
  });

  it('has icons of the sizes that their names say', () => {
    const [list] = findAll(
      parseXml(read('manifest.xml').toString('utf8')),
      'VersionOverrides',
      'Resources',
      'bt:Images',
    );
    expect(list?.children).toHaveLength(4);
    for (const image of list?.children ?? []) {
      const name = (image.attributes.DefaultValue ?? '').slice(ADDRESS.length + 1);
      const size = Number(/(\d+)\.png$/.exec(name)?.[1]);
      const png = read(name);
      // ISO/IEC 15948 (PNG): 8-byte signature, then the header chunk with width and height
      expect([...png.subarray(0, 8)]).toEqual([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
      expect(png.subarray(12, 16).toString('latin1')).toBe('IHDR');
      expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([size, size]);
    }
  });
});
