import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createNodeCalculator } from '../../src/calc/node.ts';
import { newWorkbook } from '../../src/workbook/build.ts';
import { readWorkbook } from '../../src/workbook/read.ts';
import { writeWorkbook } from '../../src/workbook/write.ts';

/**
 * Another spreadsheet program on our files. Runs where LibreOffice is installed, and always with NARROWS_LIBREOFFICE=1
 * (where it then must be); elsewhere it says that it did not run.
 */
const wanted = process.env.NARROWS_LIBREOFFICE === '1';
const found = spawnSync('soffice', ['--version'], { encoding: 'utf8' }).status === 0;
if (!found && !wanted) console.log('Not run, since LibreOffice is not installed: our workbooks in another program.');

describe.runIf(found || wanted)('LibreOffice opens a filled workbook', () => {
  let folder = '';
  const rows = (name: string): string[] =>
    readFileSync(join(folder, `${name}.csv`), 'utf8')
      .trim()
      .split('\n')
      .map((line) => line.trim());

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'narrows-office-'));
    const file = await newWorkbook({
      title: 'Lengths',
      sheets: [
        {
          name: 'Lengths',
          cells: {
            A1: 'inch',
            B1: { formula: '=NARROWS.CONVERT(1,"in","mm")' },
            C1: { formula: '=B1*2' },
            D1: { formula: '=NARROWS.CONVERT(1,"no unit","mm")' },
            A3: { formula: '=NARROWS.CAUTIONS("evacuate")', spills: 'unknown' },
          },
        },
      ],
    });
    const book = await readWorkbook(file);
    const calculator = createNodeCalculator();
    calculator.load(book.snapshot);
    await calculator.recalculate();
    const results = { snapshot: calculator.snapshot(), spills: calculator.spills() };
    calculator.dispose();
    writeFileSync(join(folder, 'filled.xlsx'), writeWorkbook(book, results));
    writeFileSync(join(folder, 'values.xlsx'), writeWorkbook(book, results, { valuesOnly: true }));
    for (const name of ['filled', 'values']) {
      // A profile of its own: a program that is open already would take the call over and do nothing.
      const profile = pathToFileURL(join(folder, 'profile')).href;
      execFileSync(
        'soffice',
        [
          `-env:UserInstallation=${profile}`,
          '--headless',
          '--convert-to',
          'csv',
          '--outdir',
          folder,
          join(folder, `${name}.xlsx`),
        ],
        { stdio: 'ignore', timeout: 150_000 },
      );
    }
  });

  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('and shows the stored values of formulas in single cells', () => {
    // 1 in = 25.4 mm by definition
    expect(rows('filled')[0]).toMatch(/^inch,25\.4,50\.8,#/);
  });

  it('and shows a copy with values in full, without a name error', () => {
    const lines = rows('values');
    expect(lines[0]).toMatch(/^inch,25\.4,50\.8,#/);
    expect(lines.length).toBeGreaterThan(5);
    expect(lines.join('\n')).not.toContain('#NAME?');
    expect(lines[2]).not.toBe('');
  });
});
