/**
 * The manifest against the rules of the platform's published reference (element pages, element order, shared runtime).
 * No schema file ships with the platform's packages and its validator asks a web service, so the rules are ours to
 * check; what they cover is said at `manifestFaults`.
 */
import { readFileSync } from 'node:fs';
import { OfficeAddinManifest } from 'office-addin-manifest';
import { describe, expect, it } from 'vitest';
import { manifestFor } from '../../src/hosts/excel/build/manifest.ts';
import { manifestFaults } from '../../src/hosts/excel/build/manifest-rules.ts';

const source = readFileSync('manifest.xml', 'utf8');

describe('the add-in manifest', () => {
  it('keeps the published rules', () => {
    expect(manifestFaults(source)).toEqual([]);
  });

  it('is read by the platform’s own tool as ours', async () => {
    const info = await OfficeAddinManifest.readManifestFile('manifest.xml');
    expect(info).toMatchObject({
      displayName: 'Narrows',
      providerName: 'Narrows',
      hosts: ['Workbook'],
      officeAppType: 'TaskPaneApp',
    });
  });

  it('carries the version of the package', () => {
    const { version } = JSON.parse(readFileSync('package.json', 'utf8')) as { version: string };
    expect(source).toContain(`<Version>${version}.0</Version>`);
  });

  it('moves to another address as a whole, and only to an https one', () => {
    const moved = manifestFor(source, 'https://tables.example/narrows/');
    expect(moved).not.toContain('localhost');
    expect(moved).toContain('"https://tables.example/narrows/taskpane.html"');
    expect(manifestFaults(moved)).toEqual([]);
    expect(() => manifestFor(source, 'http://tables.example')).toThrow(/https/);
    expect(() => manifestFor(source, 'tables.example')).toThrow(/https/);
  });
});

describe('the rules of the manifest', () => {
  const cases: readonly [string, (xml: string) => string, RegExp][] = [
    ['an unclosed element', (xml) => xml.replace('</Hosts>', ''), /well-formed/],
    ['a missing element', (xml) => xml.replace(/<SupportUrl.*\/>/, ''), /needs SupportUrl/],
    ['a wrong order', (xml) => xml.replace(/(<Version>.*<\/Version>)\s*(<Prov.*>)/, '$2$1'), /needs Version/],
    ['an element that does not belong there', (xml) => xml.replace('<Hosts>', '<Rule/><Hosts>'), /Rule/],
    ['a bad id', (xml) => xml.replace(/<Id>./, '<Id>'), /GUID/],
    ['a bad version', (xml) => xml.replace(/<Version>/, '<Version>1.0.0.'), /Version/],
    ['a long name', (xml) => xml.replace('DisplayName DefaultValue="', `$&${'n'.repeat(125)}`), /DisplayName/],
    ['a long description', (xml) => xml.replace('Description DefaultValue="', `$&${'n'.repeat(250)}`), /Description/],
    ['an address without https', (xml) => xml.replace('https://localhost', 'http://localhost'), /not an https/],
    ['a second domain', (xml) => xml.replace('https://localhost:3000', 'https://other.example'), /one domain/],
    ['a resid without a resource', (xml) => xml.replace('resid="Pane.Tip"', 'resid="Pane.Tap"'), /Pane\.Tap/],
    [
      'a resid in the wrong list',
      (xml) => xml.replace('Title resid="Pane.Label"', 'Title resid="Pane.Tip"'),
      /Pane\.Tip/,
    ],
    ['a long resid', (xml) => xml.replaceAll('Taskpane.Url', `Taskpane.Url${'x'.repeat(21)}`), /at most 32/],
    [
      'a resource that nothing uses',
      (xml) => xml.replace('<bt:String', '<bt:String id="Idle" DefaultValue="x"/>$&'),
      /Idle/,
    ],
    [
      'an id that is used twice',
      (xml) => xml.replace('<bt:Image id="Icon.16"', '<bt:Image id="Icon.32"'),
      /used twice/,
    ],
    ['a missing icon size', (xml) => xml.replace('<bt:Image size="80" resid="Icon.80"/>', ''), /lacks size 80/],
    ['an empty text', (xml) => xml.replace('DefaultValue="Open Narrows"', 'DefaultValue=""'), /Pane\.Label/],
    ['a short-lived runtime', (xml) => xml.replace('lifetime="long"', 'lifetime="short"'), /lifetime/],
    ['no shared runtime asked for', (xml) => xml.replace(/<Set Name="SharedRuntime".*\/>/, ''), /SharedRuntime/],
    [
      'a pane beside the runtime',
      (xml) => xml.replace(/(<Action.*>\s*)<SourceLocation resid="Taskpane.Url"/, '$1<SourceLocation resid="Help.Url"'),
      /shared runtime/,
    ],
    ['another schema', (xml) => xml.replace('appforoffice/1.1', 'appforoffice/1.0'), /xmlns/],
  ];

  it.each(cases)('refuse %s', (_, spoil, words) => {
    const spoilt = spoil(source);
    expect(spoilt).not.toBe(source);
    expect(manifestFaults(spoilt).join('\n')).toMatch(words);
  });
});

describe('the installation page', () => {
  it('states the requirement sets of the manifest, versions included', () => {
    const page = readFileSync(new URL('../../docs/install-excel.md', import.meta.url), 'utf8');
    const manifest = readFileSync(new URL('../../manifest.xml', import.meta.url), 'utf8');
    const sets = [...manifest.matchAll(/<Set Name="(\w+)" MinVersion="([\d.]+)"/g)];
    expect(sets.length).toBeGreaterThan(2);
    for (const [, name, version] of sets) expect(page).toContain(`| ${name} ${version} |`);
  });
});
