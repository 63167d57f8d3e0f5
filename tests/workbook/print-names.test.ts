import { readFileSync } from 'node:fs';
import { writeXlsx } from 'hucre/xlsx';
import { describe, expect, it } from 'vitest';
import { rebuild } from '../../src/hosts/sheet/save/rebuild.ts';
import type { SheetEdit } from '../../src/workbook/edits.ts';
import { type Parts, partText, textPart, writeParts } from '../../src/workbook/package.ts';
import { readWorkbook } from '../../src/workbook/read.ts';
import { books } from '../../templates/books.ts';

/** Names of a file and what they stand for, those of one sheet with its number. */
function namesOf(parts: Parts): Map<string, string> {
  const xml = partText(parts, 'xl/workbook.xml') ?? '';
  const found = [...xml.matchAll(/<definedName ([^>]*)>([^<]*)<\/definedName>/g)].map(
    ([, attributes = '', text = '']) => {
      const name = /name="([^"]*)"/.exec(attributes)?.[1] ?? '';
      const sheet = /localSheetId="(\d+)"/.exec(attributes)?.[1] ?? '';
      return [`${name} ${sheet}`.trim(), text.replaceAll('&apos;', "'").replaceAll('&amp;', '&')] as const;
    },
  );
  return new Map(found);
}

/** One or more ranges, each with its sheet: a name of letters and digits, or one in quotes. ISO/IEC 29500-1 §18.17.2.2. */
const RANGE =
  /(?:[A-Za-z_][A-Za-z0-9_.]*|'(?:[^']|'')+')!\$?(?:[A-Z]{1,3}\$?\d+(?::\$?[A-Z]{1,3}\$?\d+)?|[A-Z]{1,3}:\$?[A-Z]{1,3}|\d+:\$?\d+)/;
const RANGES = new RegExp(`^${RANGE.source}(?:,${RANGE.source})*$`);

describe('names for print of the shipped books', () => {
  it.each(Object.keys(books))('of %s are ranges as other programs read them', async (name) => {
    const { parts } = await readWorkbook(new Uint8Array(readFileSync(`templates/${name}.xlsx`)));
    const names = [...namesOf(parts)].filter(([key]) => key.startsWith('_xlnm.Print'));
    expect(names.length).toBeGreaterThan(0);
    for (const [key, text] of names) expect(text, key).toMatch(RANGES);
  });

  it('end no area above the end of a table that grows: whole columns end with the last row that shows something', async () => {
    for (const name of Object.keys(books)) {
      const { parts, sheets } = await readWorkbook(new Uint8Array(readFileSync(`templates/${name}.xlsx`)));
      const names = namesOf(parts);
      for (const [at, { name: sheet }] of sheets.entries()) {
        const area = names.get(`_xlnm.Print_Area ${at}`);
        // tables of so many rows as the sheets ask for
        if (area !== undefined && !['Curves', 'Recovery'].includes(sheet))
          expect(area, `${name}, ${sheet}`).toMatch(/!\$[A-Z]+\$1:\$[A-Z]+\$1048576$/);
      }
    }
  });

  it('print both rigs of Curves, each range with its sheet', async () => {
    const { parts, sheets } = await readWorkbook(new Uint8Array(readFileSync('templates/narrows-template.xlsx')));
    const at = sheets.findIndex(({ name }) => name === 'Curves');
    expect(namesOf(parts).get(`_xlnm.Print_Area ${at}`)).toMatch(
      /^'Curves'!\$A\$1:\$G\$\d+,'Curves'!\$K\$\d+:\$Q\$\d+$/,
    );
    expect(sheets[at]?.extras.print.areas.length).toBe(2);
  });

  it('repeat the frozen columns and the header rows of a table that takes two pages across', async () => {
    const { parts, sheets } = await readWorkbook(new Uint8Array(readFileSync('templates/narrows-template.xlsx')));
    const at = sheets.findIndex(({ name }) => name === 'Results');
    expect(namesOf(parts).get(`_xlnm.Print_Titles ${at}`)).toBe("'Results'!$A:$A,'Results'!$10:$10");
    expect(partText(parts, sheets[at]?.part ?? '')).toMatch(/<pageSetup [^>]*fitToWidth="2" fitToHeight="0"/);
  });
});

describe('names for print in a file made anew', () => {
  const SHEET = "Tom's pipe, runs";
  const QUOTED = "'Tom''s pipe, runs'";
  async function saved(names: string, edits: readonly SheetEdit[], rename?: string): Promise<Map<string, string>> {
    const bytes = await writeXlsx({
      sheets: [
        { name: SHEET, rows: [['a', 'b']], pageSetup: { printArea: 'A1:B2', printTitlesRow: '1:1' } },
        { name: 'Plain', rows: [[1]], pageSetup: { printArea: 'A1:A9' } },
      ],
    });
    const { parts } = await readWorkbook(bytes);
    const xml = partText(parts, 'xl/workbook.xml') ?? '';
    parts.set(
      'xl/workbook.xml',
      textPart(xml.replace(/<definedNames>.*<\/definedNames>/s, `<definedNames>${names}</definedNames>`)),
    );
    const book = await readWorkbook(writeParts(parts));
    const now = structuredClone(book.snapshot);
    const [first = ''] = now.sheetOrder;
    if (rename !== undefined && now.sheets[first] !== undefined)
      now.sheets[first] = { ...now.sheets[first], name: rename };
    return namesOf((await readWorkbook(await rebuild(book, now, edits))).parts);
  }
  const area = (text: string, sheet = 0) =>
    `<definedName name="_xlnm.Print_Area" localSheetId="${sheet}">${text}</definedName>`;
  const titles = (text: string) => `<definedName name="_xlnm.Print_Titles" localSheetId="0">${text}</definedName>`;
  const insert: SheetEdit = { kind: 'insert', sheet: SHEET, axis: 'row', at: 0, count: 2 };

  it('are what they were, to the letter, where nothing moved', async () => {
    const two = `${QUOTED}!$A$1:$B$2,${QUOTED}!$D$1:$E$2`;
    const both = `${QUOTED}!$A:$A,${QUOTED}!$1:$1`;
    const names = await saved(area(two) + titles(both) + area('Plain!$A$1:$A$9', 1), []);
    expect(names.get('_xlnm.Print_Area 0')).toBe(two);
    expect(names.get('_xlnm.Print_Titles 0')).toBe(both);
    expect(names.get('_xlnm.Print_Area 1')).toBe('Plain!$A$1:$A$9');
  });

  it('keep whole columns whole where rows come in', async () => {
    const names = await saved(area(`${QUOTED}!$A:$B`), [insert]);
    expect(names.get('_xlnm.Print_Area 0')).toBe(`${QUOTED}!$A:$B`);
  });

  it('follow rows, columns and the name of their sheet', async () => {
    const names = await saved(
      area(`${QUOTED}!$A$1:$B$2,${QUOTED}!$D$1:$E$2`) + titles(`${QUOTED}!$A:$A,${QUOTED}!$1:$1`),
      [insert, { kind: 'rename', sheet: SHEET, to: 'Runs' }],
      'Runs',
    );
    expect(names.get('_xlnm.Print_Area 0')).toBe('Runs!$A$3:$B$4,Runs!$D$3:$E$4');
    expect(names.get('_xlnm.Print_Titles 0')).toBe('Runs!$A:$A,Runs!$3:$3');
  });

  it('lose the ranges that are gone, and go where none is left', async () => {
    const names = await saved(area(`${QUOTED}!$A$1:$B$2,${QUOTED}!$D$5:$E$6`) + titles(`${QUOTED}!$1:$1`), [
      { kind: 'remove', sheet: SHEET, axis: 'row', at: 0, count: 2 },
    ]);
    expect(names.get('_xlnm.Print_Area 0')).toBe(`${QUOTED}!$D$3:$E$4`);
    expect(names.has('_xlnm.Print_Titles 0')).toBe(false);
  });
});
