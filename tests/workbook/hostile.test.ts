import { deflateSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { createNodeCalculator } from '../../src/calc/node.ts';
import { Fault } from '../../src/faults/issue.ts';
import { issueWords } from '../../src/faults/words.ts';
import { newWorkbook } from '../../src/workbook/build.ts';
import { LIMITS } from '../../src/workbook/limits.ts';
import { readParts, textPart, writeParts } from '../../src/workbook/package.ts';
import { type Book, readWorkbook } from '../../src/workbook/read.ts';
import { writeWorkbook } from '../../src/workbook/write.ts';
import { startTags } from '../../src/workbook/xml.ts';
import { type BareWorkbook, bareFile, bareParts } from './bare.ts';

const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const line = (cells: string, row = 1): string => `<row r="${row}">${cells}</row>`;
const one = (rows: string, rest: Partial<BareWorkbook> = {}): Uint8Array =>
  bareFile({ sheets: [{ name: 'A', rows }], ...rest });
const withPart = (book: BareWorkbook, part: string, text: string): Uint8Array =>
  writeParts(new Map([...bareParts(book), [part, textPart(text)]]));

async function faultOf(bytes: Uint8Array, limits = LIMITS): Promise<string> {
  try {
    await readWorkbook(bytes, limits);
  } catch (error) {
    if (error instanceof Fault) return issueWords(error.issue);
    throw error;
  }
  return 'it was read';
}

/** Reads, works out, writes and reads again: what `fill` does. */
async function filled(bytes: Uint8Array): Promise<Book> {
  const before = bytes.slice();
  const book = await readWorkbook(bytes);
  const calculator = createNodeCalculator();
  try {
    calculator.load(book.snapshot);
    await calculator.recalculate();
    const out = writeWorkbook(book, { snapshot: calculator.snapshot(), spills: calculator.spills() });
    expect(bytes).toEqual(before);
    return await readWorkbook(out);
  } finally {
    calculator.dispose();
  }
}
const cellOf = (book: Book, row: number, column: number, sheet = 1) =>
  book.snapshot.sheets[`sheet-${sheet}`]?.cellData?.[row]?.[column];

describe('a package that is not what it says', () => {
  const simple: BareWorkbook = { sheets: [{ name: 'A', rows: line('<c r="A1"><v>1</v></c>') }] };

  it('an archive inside the archive is a part like any other and is not opened', async () => {
    const bomb = writeParts(new Map([['zeros', new Uint8Array(8 * 2 ** 20)]]));
    const parts = new Map([...bareParts(simple), ['xl/embeddings/more.zip', bomb]]);
    expect((await readWorkbook(writeParts(parts))).parts.get('xl/embeddings/more.zip')).toEqual(bomb);
  });

  it('many entries that share the bytes of one count each', () => {
    // An archive of one part whose central record is there a hundred times, under names of equal length.
    const packed = deflateSync(new Uint8Array(4 * 2 ** 20));
    const whole = writeParts(new Map([['part-00', new Uint8Array(4 * 2 ** 20)]]));
    expect(packed.length).toBeLessThan(whole.length);
    const view = new DataView(whole.buffer, whole.byteOffset);
    const end = whole.length - 22;
    const start = view.getUint32(end + 16, true);
    const record = whole.subarray(start, end);
    const copies = 100;
    const out = new Uint8Array(start + record.length * copies + 22);
    out.set(whole.subarray(0, start));
    for (let copy = 0; copy < copies; copy++) {
      const at = start + copy * record.length;
      out.set(record, at);
      out.set(textPart(`part-${String(copy).padStart(2, '0')}`), at + 46);
    }
    out.set(whole.subarray(end), start + record.length * copies);
    const endView = new DataView(out.buffer, out.length - 22);
    endView.setUint16(8, copies, true);
    endView.setUint16(10, copies, true);
    expect(() => readParts(out)).toThrow(Fault);
  });

  it('a part of another type, or with nothing in it, is refused or read without it, whichever part it is', async () => {
    const names = [...bareParts(simple).keys()];
    const stand = [textPart(''), textPart('[]'), textPart('<a/>'), Uint8Array.from({ length: 900 }, (_, i) => i % 256)];
    for (const name of names) {
      for (const bytes of stand) {
        const words = await faultOf(writeParts(new Map([...bareParts(simple), [name, bytes]])));
        expect(words, name).toMatch(/^it was read$|Workbook/);
      }
      const without = bareParts(simple);
      without.delete(name);
      expect(await faultOf(writeParts(without)), name).toMatch(/^it was read$|Workbook/);
    }
  });

  it('a workbook cut short at every kilobyte is refused in words', async () => {
    let seed = 7;
    const noise = (): number => {
      seed = (seed * 48271) % 2147483647;
      return seed;
    };
    const rows = Array.from({ length: 2000 }, () => [noise(), noise(), noise()]);
    const whole = await newWorkbook({ title: 'Long', sheets: [{ name: 'Long', blocks: [{ at: 'A1', rows }] }] });
    expect(whole.length).toBeGreaterThan(30_000);
    for (let length = 1024; length < whole.length; length += 1024) {
      expect(await faultOf(whole.subarray(0, length))).toMatch(/cut short|damaged/);
    }
  });
});

describe('XML that is not what it seems', () => {
  it('a document type is refused before anything of it is read, in whatever part', async () => {
    const entities = Array.from({ length: 9 }, (_, i) => `<!ENTITY e${i + 1} "${`&e${i};`.repeat(10)}">`).join('');
    const types = [
      `<!DOCTYPE sst [<!ENTITY e0 "ha">${entities}]>`,
      '<!DOCTYPE sst [<!ENTITY e9 SYSTEM "file:///etc/hostname">]>',
      '<!-- <a> --><?x <b>?><!DOCTYPE sst>',
    ];
    const book: BareWorkbook = { strings: ['x'], sheets: [{ name: 'A', rows: line('<c r="A1" t="s"><v>0</v></c>') }] };
    for (const type of types) {
      const strings = `<?xml version="1.0"?>${type}<sst xmlns="${MAIN}"><si><t>&e9;</t></si></sst>`;
      expect(await faultOf(withPart(book, 'xl/sharedStrings.xml', strings))).toMatch(/document type/);
      expect(await faultOf(withPart(book, 'docProps/app.xml', `${type}<a/>`))).toMatch(/document type/);
    }
    expect(await faultOf(withPart(book, 'docProps/app.xml', `<!--${'x'.repeat(70_000)}--><!DOCTYPE a><a/>`))).toMatch(
      /document type/,
    );
  });

  it('text of 16 bits, which would pass the counts unseen, is refused', async () => {
    const wide = new Uint8Array([0xff, 0xfe, ...[...'<a/>'].flatMap((letter) => [letter.charCodeAt(0), 0])]);
    const parts = new Map([...bareParts({ sheets: [{ name: 'A', rows: '' }] }), ['xl/worksheets/sheet1.xml', wide]]);
    expect(await faultOf(writeParts(parts))).toMatch(/UTF-16/);
  });

  it('cells in comments, instructions and character data are none; the real one gets its value', async () => {
    const ghost = line('<c r="A1"><f>1+1</f></c>');
    const book = await filled(
      one(
        `<!-- ${ghost} --><?ghost ${ghost}?>${line('<c r="A1"><f>2+2</f></c><c r="B1" t="str"><v><![CDATA[</c></row>]]></v></c>')}`,
      ),
    );
    expect(cellOf(book, 0, 0)).toMatchObject({ f: '=2+2', v: 4 });
    expect(cellOf(book, 0, 1)).toMatchObject({ v: '</c></row>' });
  });

  it('a sheet that only a comment names is none', async () => {
    const parts = bareParts({
      sheets: [
        { name: 'A', rows: line('<c r="A1"><v>1</v></c>') },
        { name: 'B', rows: line('<c r="A1"><f>3+4</f></c>') },
      ],
    });
    const text = new TextDecoder().decode(parts.get('xl/workbook.xml'));
    parts.set('xl/workbook.xml', textPart(text.replace('<sheets>', '<sheets><!--<sheet name="B" r:id="rId1"/>-->')));
    expect(cellOf(await filled(writeParts(parts)), 0, 0, 2)).toMatchObject({ v: 7 });
  });

  it('rows and cells out of order or named twice each end with one value', async () => {
    const book = await filled(
      one(
        `${line('<c r="C5"><f>1+1</f></c><c r="A5"><f>2+1</f></c>', 5)}${line('<c r="A2"><f>2+5</f></c><c><v>8</v></c>', 2)}${line('<c r="B5"><v>9</v></c>', 5)}`,
      ),
    );
    const values = [cellOf(book, 4, 2), cellOf(book, 4, 0), cellOf(book, 1, 0), cellOf(book, 1, 1), cellOf(book, 4, 1)];
    expect(values.map((cell) => cell?.v)).toEqual([2, 3, 7, 8, 9]);
    const twice = await filled(one(line('<c r="A1"><v>1</v></c><c r="A1"><f>1+2</f></c>')));
    expect(cellOf(twice, 0, 0)).toMatchObject({ f: '=1+2', v: 3 });
  });

  it.each([
    ['cells that never end', line('<c r="A1">'.repeat(50_000))],
    ['tags that never end', '<c '.repeat(50_000)],
    ['a row inside a row', '<row r="1"><row r="2"></row></row>'],
    ['a cell outside its row', '<c r="A1"/>'],
  ])('%s are refused', async (_, rows) => {
    expect(await faultOf(one(rows))).toMatch(/open and close|ends in the middle/);
  });

  it('a > inside quotes does not end a tag, and a tag that never ends ends the search', () => {
    expect(startTags('<sheet name="a>b" r:id="x"/><sheet name=\'"\'/>', 'sheet')).toHaveLength(2);
    expect(startTags('<sheet '.repeat(200_000), 'sheet')).toEqual([]);
  });

  it('long names without an = are gone through once', async () => {
    const long = `<workbook><sheets><sheet ${'a'.repeat(200_000)} ></sheets></workbook>`;
    expect(await faultOf(withPart({ sheets: [{ name: 'A', rows: '' }] }, 'xl/workbook.xml', long))).toMatch(/Workbook/);
  });
});

describe('sheets, names and numbers that are traps', () => {
  it('thousands of sheets are refused, and so are two of one name', async () => {
    const sheets = Array.from({ length: 3000 }, (_, i) => ({ name: `S${i}`, rows: '' }));
    expect(await faultOf(bareFile({ sheets }))).toMatch(/3000/);
    const same = ['A', 'a'].map((name) => ({ name, rows: line('<c r="A1"><v>1</v></c>') }));
    expect(await faultOf(bareFile({ sheets: same }))).toMatch(/two sheets called/);
  });

  it('merged ranges are held to the sheet, and too many of them are refused', async () => {
    const merges = (count: number) => `<mergeCells>${'<mergeCell ref="A1:XFD1048576"/>'.repeat(count)}</mergeCells>`;
    const rows = line('<c r="A1"><v>1</v></c>');
    const { snapshot } = await readWorkbook(bareFile({ sheets: [{ name: 'A', rows, after: merges(1) }] }));
    expect(snapshot.sheets['sheet-1']?.mergeData?.[0]?.endRow).toBeLessThan(2000);
    expect(await faultOf(bareFile({ sheets: [{ name: 'A', rows, after: merges(500) }] }))).toMatch(/[Mm]erged/);
  });

  it('a long formula that very many cells share is refused before it has been written out for each', async () => {
    const rows = [line(`<c r="A1"><f t="shared" si="0" ref="A1:A500">${'A1+'.repeat(300)}1</f></c>`)];
    for (let row = 2; row <= 500; row++) rows.push(line(`<c r="A${row}"><f t="shared" si="0"/></c>`, row));
    expect(await faultOf(one(rows.join('')), { ...LIMITS, formulaCharacters: 100_000 })).toMatch(/characters/);
  });

  it('a number that none can hold is an error, not an amount', async () => {
    const book = await filled(
      one(line('<c r="A1"><v>1e999</v></c><c r="B1"><v>Infinity</v></c><c r="C1"><f>A1*0</f></c>')),
    );
    expect([0, 1, 2].map((column) => cellOf(book, 0, column)?.v)).toEqual(['#NUM!', '#NUM!', '#NUM!']);
  });

  it('sheets, headers and names called like parts of an object are sheets, headers and names', async () => {
    const text = (address: string, words: string) => `<c r="${address}" t="inlineStr"><is><t>${words}</t></is></c>`;
    const book = await filled(
      bareFile({
        names: '<definedName name="toString">constructor!$B$1</definedName>',
        sheets: [
          {
            name: '__proto__',
            rows: `${line(`${text('A1', '__proto__')}${text('B1', 'constructor')}`)}${line('<c r="A2"><f>constructor!B1+toString</f></c>', 2)}`,
          },
          { name: 'constructor', rows: line(`${text('A1', 'hasOwnProperty')}<c r="B1"><v>7</v></c>`) },
        ],
      }),
    );
    expect(book.sheets.map(({ name }) => name)).toEqual(['__proto__', 'constructor']);
    expect(cellOf(book, 0, 0)?.v).toBe('__proto__');
    expect(cellOf(book, 1, 0)?.v).toBe(14);
    expect(({} as Record<string, unknown>).v).toBeUndefined();
  });

  it('a defined name like one of ours changes nothing in our functions', async () => {
    const book = await filled(
      one(
        line(
          '<c r="A1"><f>_xldudf_NARROWS_CONVERT(1,"in","mm")</f></c><c r="B1"><f>Parts</f></c><c r="C1"><v>5</v></c>',
        ),
        {
          names:
            '<definedName name="NARROWS.CONVERT">A!$C$1</definedName><definedName name="Parts">A!$C$1*2</definedName>',
        },
      ),
    );
    // 1 in = 25.4 mm by definition
    expect(cellOf(book, 0, 0)?.v).toBe(25.4);
    expect(cellOf(book, 0, 1)?.v).toBe(10);
  });

  it('scripts and links in text come back as the text that they are', async () => {
    const texts = [
      '<script>alert(1)</script>',
      'javascript:alert(1)',
      '"><img src=x onerror=alert(1)>',
      "=cmd|'/c'!A1",
      '&lt;b&gt;',
    ];
    const bytes = await newWorkbook({
      title: 'Texts',
      sheets: [
        { name: 'A', cells: { C1: { formula: '=A1&A5' } }, blocks: [{ at: 'A1', rows: texts.map((text) => [text]) }] },
      ],
    });
    const book = await filled(bytes);
    expect(texts.map((_, row) => cellOf(book, row, 0))).toEqual(texts.map((v) => ({ v, t: 1 })));
    expect(cellOf(book, 0, 2)?.v).toBe(`${texts[0]}${texts[4]}`);
  });
});
