import { deflateSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { Fault } from '../../src/faults/issue.ts';
import { issueWords } from '../../src/faults/words.ts';
import { LIMITS } from '../../src/workbook/limits.ts';
import { readParts, textPart, writeParts } from '../../src/workbook/package.ts';
import { readWorkbook } from '../../src/workbook/read.ts';
import { bareFile, bareParts } from './bare.ts';

const SIMPLE = { sheets: [{ name: 'Units', rows: '<row r="1"><c r="A1"><v>1</v></c></row>' }] };

async function faultOf(bytes: Uint8Array, limits = LIMITS): Promise<Fault> {
  try {
    await readWorkbook(bytes, limits);
  } catch (error) {
    if (error instanceof Fault) return error;
    throw error;
  }
  throw new Error('it was read');
}

/** An archive of one entry, built by hand so that it may lie. */
function archive(name: string, packed: Uint8Array, unpackedSize: number, method = 8): Uint8Array {
  const nameBytes = textPart(name);
  const local = new Uint8Array(30 + nameBytes.length + packed.length);
  const central = new Uint8Array(46 + nameBytes.length);
  const end = new Uint8Array(22);
  const put = (at: Uint8Array, offset: number, size: 2 | 4, value: number): void => {
    const view = new DataView(at.buffer);
    if (size === 2) view.setUint16(offset, value, true);
    else view.setUint32(offset, value, true);
  };
  put(local, 0, 4, 0x04034b50);
  put(local, 8, 2, method);
  put(local, 18, 4, packed.length);
  put(local, 22, 4, unpackedSize);
  put(local, 26, 2, nameBytes.length);
  local.set(nameBytes, 30);
  local.set(packed, 30 + nameBytes.length);
  put(central, 0, 4, 0x02014b50);
  put(central, 10, 2, method);
  put(central, 20, 4, packed.length);
  put(central, 24, 4, unpackedSize);
  put(central, 28, 2, nameBytes.length);
  central.set(nameBytes, 46);
  put(end, 0, 4, 0x06054b50);
  put(end, 10, 2, 1);
  put(end, 12, 4, central.length);
  put(end, 16, 4, local.length);
  const all = new Uint8Array(local.length + central.length + end.length);
  all.set(local);
  all.set(central, local.length);
  all.set(end, local.length + central.length);
  return all;
}

describe('a file that is no whole workbook is refused in words', () => {
  it.each([
    ['an empty file', new Uint8Array(0), /empty file/],
    ['text', textPart('Unit,Volume\nA,12\n'), /another kind/],
    ['a picture', Uint8Array.from({ length: 5000 }, (_, i) => (i * 37) % 251), /another kind/],
    [
      'an encrypted or old workbook',
      Uint8Array.from([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1, 0, 0]),
      /password|\.xls/,
    ],
    ['an archive of something else', writeParts(new Map([['readme.txt', textPart('hello')]])), /holds no workbook/],
    ['an archive of nothing', writeParts(new Map()), /holds no workbook/],
  ])('%s', async (_, bytes, words) => {
    const { issue } = await faultOf(bytes);
    expect(issueWords(issue)).toMatch(words);
  });

  it('with a password: in whole sentences that say what to do', async () => {
    const { issue } = await faultOf(Uint8Array.from([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1, 0, 0]));
    expect(issueWords(issue)).toBe(
      'Workbook is a file with a password or one in the older .xls form: allowed is a complete .xlsx file. Open it in a spreadsheet program and save it as .xlsx without a password.',
    );
  });

  it('a workbook cut short at any place', async () => {
    const whole = bareFile(SIMPLE);
    for (let part = 1; part < 40; part++) {
      const { issue } = await faultOf(whole.subarray(0, Math.floor((whole.length * part) / 40)));
      expect(issue.kind).toBe('wrong');
    }
  });

  it('a workbook with a byte turned over reads the same or is refused, never otherwise', async () => {
    const whole = bareFile(SIMPLE);
    const sound = JSON.stringify((await readWorkbook(whole)).snapshot);
    for (let at = 0; at < whole.length; at += 7) {
      const broken = whole.slice();
      broken[at] = (broken[at] ?? 0) ^ 0x5a;
      try {
        expect(JSON.stringify((await readWorkbook(broken)).snapshot)).toBe(sound);
      } catch (error) {
        expect(error).toBeInstanceOf(Fault);
      }
    }
  });
});

describe('a file that would grow beyond bounds is stopped', () => {
  it('a part that says that it unpacks to a thousand times its size', async () => {
    const zeros = new Uint8Array(64 * 1024 * 1024);
    const { issue } = await faultOf(archive('xl/workbook.xml', deflateSync(zeros), zeros.length));
    expect(issue).toMatchObject({ kind: 'limit', rule: 'at most', unit: 'times' });
  });

  it('a part that unpacks to more than it says', () => {
    const packed = deflateSync(new Uint8Array(32 * 1024 * 1024));
    expect(() => readParts(archive('xl/workbook.xml', packed, 1000))).toThrow(Fault);
  });

  it('parts that come to too much together', async () => {
    const { issue } = await faultOf(bareFile(SIMPLE), { ...LIMITS, unpackedBytes: 1000 });
    expect(issue).toMatchObject({ kind: 'limit', unit: 'bytes', limit: 1000 });
  });

  it('too many parts, sheets or cells, or a file too large', async () => {
    const rows = Array.from({ length: 50 }, (_, i) => `<row r="${i + 1}"><c r="A${i + 1}"><v>1</v></c></row>`).join('');
    const file = bareFile({
      sheets: [
        { name: 'A', rows },
        { name: 'B', rows },
      ],
    });
    for (const limits of [{ fileBytes: 100 }, { parts: 3 }, { sheets: 1 }, { cells: 99 }, { rectangle: 20 }]) {
      expect((await faultOf(file, { ...LIMITS, ...limits })).issue.kind).toBe('limit');
    }
    expect((await readWorkbook(file, { ...LIMITS, cells: 100 })).sheets).toHaveLength(2);
  });

  it('a few cells in the far corner of a sheet, row after row', async () => {
    const rows = Array.from({ length: 1000 }, (_, i) => `<row r="${i + 1}"><c r="XFD${i + 1}"><v>1</v></c></row>`).join(
      '',
    );
    const { issue } = await faultOf(bareFile({ sheets: [{ name: 'A', rows }] }));
    expect(issue.kind).toBe('limit');
  });

  it('two cells in opposite corners of a sheet, told as how far its rows and columns reach', async () => {
    const rows = '<row r="1"><c r="A1"><v>1</v></c></row><row r="1048576"><c r="XFD1048576"><v>1</v></c></row>';
    const { issue } = await faultOf(bareFile({ sheets: [{ name: 'Far', rows }] }));
    // all rows times all columns of a sheet: 2 to the power of 34
    expect(issue).toMatchObject({ kind: 'limit', value: 2 ** 34 });
    expect(issueWords(issue)).toMatch(/^Rows times columns in use, sheet Far/);
    const down = rows.replace('XFD1048576', 'B1048576');
    expect((await readWorkbook(bareFile({ sheets: [{ name: 'Long', rows: down }] }))).sheets).toHaveLength(1);
  });

  it('width records that name every column over and over', async () => {
    const before = `<cols>${'<col min="1" max="16384" width="9"/>'.repeat(100)}</cols>`;
    const { issue } = await faultOf(bareFile({ sheets: [{ name: 'A', rows: '', before }] }));
    expect(issue.kind).toBe('limit');
  });
});

describe('a package', () => {
  it('comes back part by part as it was packed, and is packed to the same bytes again', () => {
    const parts = bareParts(SIMPLE);
    const bytes = writeParts(parts);
    expect([...readParts(bytes)]).toEqual([...parts]);
    expect(writeParts(readParts(bytes))).toEqual(bytes);
  });

  it('with one name twice is refused', () => {
    const bytes = writeParts(
      new Map([
        ['a.xml', textPart('<a/>')],
        ['b.xml', textPart('<b/>')],
      ]),
    );
    for (let at = 0; at < bytes.length; at++) {
      if (bytes[at] === 0x62 && bytes[at + 1] === 0x2e) bytes[at] = 0x61;
    }
    expect(() => readParts(bytes)).toThrow(Fault);
  });
});
