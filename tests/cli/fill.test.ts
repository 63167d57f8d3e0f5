import { spawn } from 'node:child_process';
import { linkSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { run } from '../../src/hosts/cli/main.ts';
import { newWorkbook } from '../../src/workbook/build.ts';
import { readWorkbook } from '../../src/workbook/read.ts';
import { bareFile } from '../workbook/bare.ts';

const COMMAND = fileURLToPath(new URL('../../src/hosts/cli/narrows.mjs', import.meta.url));

interface Ran {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

/** The command in a process of its own, as people start it. */
function narrowsAsStarted(...args: string[]): Promise<Ran> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [COMMAND, ...args], { stdio: ['ignore', 'pipe', 'pipe'] });
    let out = '';
    let err = '';
    child.stdout.on('data', (text) => {
      out += text;
    });
    child.stderr.on('data', (text) => {
      err += text;
    });
    child.on('error', reject);
    child.on('close', (status) => resolve({ status, out, err }));
  });
}

/** The command within this process, which spares a start for each case. */
async function narrows(...args: string[]): Promise<Ran> {
  let err = '';
  const spy = vi.spyOn(process.stderr, 'write').mockImplementation((text) => {
    err += String(text);
    return true;
  });
  try {
    return { status: await run(args), out: '', err };
  } finally {
    spy.mockRestore();
  }
}

let folder = '';
const inFolder = (name: string): string => join(folder, name);

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'narrows-fill-'));
  const sound = await newWorkbook({
    title: 'Bores',
    sheets: [
      {
        name: 'Bores',
        cells: {
          A1: '3/8 in',
          B1: { formula: '=NARROWS.CONVERT(1,"in","mm")' },
          C1: { formula: '=B1*2' },
          D1: { formula: '=IF(B1>0,"wide","narrow")' },
          A3: { formula: '=SEQUENCE(3,2)', spills: 'unknown' },
          A7: { formula: '=SUM(A3#)' },
        },
      },
    ],
  });
  writeFileSync(inFolder('book.xlsx'), sound);
  const faulty = await newWorkbook({
    title: 'Faulty',
    sheets: [{ name: 'One', cells: { A1: { formula: '=NARROWS.TUBE.BORE("9/7 in")' }, A2: { formula: '=1+1' } } }],
  });
  writeFileSync(inFolder('faulty.xlsx'), faulty);
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('narrows fill', () => {
  it('has room for a result of many more rows than the file has', async () => {
    const cells = { A1: { formula: '=SEQUENCE(11000)', spills: 'unknown' as const }, C1: { formula: '=SUM(A1#)' } };
    writeFileSync(inFolder('long.xlsx'), await newWorkbook({ title: 'Long', sheets: [{ name: 'Long', cells }] }));
    expect((await narrows('fill', inFolder('long.xlsx'), '-o', inFolder('long-filled.xlsx'))).status).toBe(0);
    const { snapshot } = await readWorkbook(readFileSync(inFolder('long-filled.xlsx')));
    // the sum of 1 to 11,000 by Gauss's rule
    expect(snapshot.sheets['sheet-1']?.cellData?.[0]?.[2]?.v).toBe((11_000 * 11_001) / 2);
  });

  it('stores every value in a copy, and leaves the workbook as it was', async () => {
    const before = readFileSync(inFolder('book.xlsx'));
    const ran = await narrowsAsStarted('fill', inFolder('book.xlsx'), '-o', inFolder('out.xlsx'));
    expect(ran).toEqual({ status: 0, out: '', err: '' });
    expect(readFileSync(inFolder('book.xlsx'))).toEqual(before);
    const book = await readWorkbook(readFileSync(inFolder('out.xlsx')));
    const cells = book.snapshot.sheets['sheet-1']?.cellData ?? {};
    // 1 in = 25.4 mm by definition
    expect(cells[0]?.[1]).toMatchObject({ v: 25.4, f: '=NARROWS.CONVERT(1,"in","mm")' });
    expect(cells[0]?.[2]).toMatchObject({ v: 50.8 });
    expect(cells[0]?.[3]).toMatchObject({ v: 'wide' });
    // 1 + 2 + … + 6
    expect(cells[6]?.[0]).toMatchObject({ v: 21 });
    expect(book.sheets[0]?.filled[0]?.block).toEqual({ startRow: 2, startColumn: 0, endRow: 4, endColumn: 1 });
    expect(readdirSync(folder).filter((name) => name.includes('.part'))).toEqual([]);
  });

  it('with --values puts numbers in place of our formulas', async () => {
    const ran = await narrows('fill', inFolder('book.xlsx'), '-o', inFolder('values.xlsx'), '--values');
    expect(ran.status).toBe(0);
    const cells =
      (await readWorkbook(readFileSync(inFolder('values.xlsx')))).snapshot.sheets['sheet-1']?.cellData ?? {};
    expect(cells[0]?.[1]).toEqual({ v: 25.4, t: 2 });
    expect(cells[0]?.[2]).toMatchObject({ f: '=B1*2', v: 50.8 });
    expect(cells[2]?.[0]).toEqual({ v: 1, t: 2 });
    expect(cells[4]?.[1]).toEqual({ v: 6, t: 2 });
    expect(cells[6]?.[0]).toEqual({ v: 21, t: 2 });
  });

  it('names the cells that end in an error, with words, and says so by its status', async () => {
    const ran = await narrows('fill', inFolder('faulty.xlsx'), '-o', inFolder('faulty-out.xlsx'));
    expect(ran.status).toBe(1);
    expect(ran.err).toMatch(/^One!A1 #(VALUE!|N\/A): .*9\/7 in/m);
    const cells = (await readWorkbook(readFileSync(inFolder('faulty-out.xlsx')))).snapshot.sheets['sheet-1']?.cellData;
    expect(cells?.[1]?.[0]?.v).toBe(2);
  });

  it('will not write over the workbook itself, by whatever name', async () => {
    const before = readFileSync(inFolder('book.xlsx'));
    linkSync(inFolder('book.xlsx'), inFolder('other-name.xlsx'));
    for (const target of [inFolder('book.xlsx'), join(folder, '.', 'book.xlsx'), inFolder('other-name.xlsx')]) {
      const ran = await narrows('fill', inFolder('book.xlsx'), '-o', target);
      expect(ran.status).toBe(2);
      expect(ran.err).toMatch(/never changed/);
    }
    expect(readFileSync(inFolder('book.xlsx'))).toEqual(before);
  });

  it('a workbook that cannot be read is one line and status 2; the copy of before stays', async () => {
    writeFileSync(inFolder('cut.xlsx'), readFileSync(inFolder('book.xlsx')).subarray(0, 1000));
    writeFileSync(inFolder('text.xlsx'), 'Unit,Volume\n');
    writeFileSync(inFolder('kept.xlsx'), 'as it was');
    for (const name of ['cut.xlsx', 'text.xlsx', 'missing.xlsx']) {
      const ran = await narrows('fill', inFolder(name), '-o', inFolder('kept.xlsx'));
      expect(ran.status).toBe(2);
      expect(ran.err.trim().split('\n')).toHaveLength(1);
      expect(ran.err).toContain(name);
      expect(readFileSync(inFolder('kept.xlsx'), 'utf8')).toBe('as it was');
    }
  });

  it('names what it does not carry over', async () => {
    const file = bareFile({
      sheets: [{ name: 'A', rows: '<row r="1"><c r="A1"><f>1+1</f></c></row>' }],
      parts: { 'xl/pivotTables/pivotTable1.xml': { text: '<pivotTableDefinition/>' } },
    });
    writeFileSync(inFolder('pivot.xlsx'), file);
    const ran = await narrows('fill', inFolder('pivot.xlsx'), '-o', inFolder('pivot-out.xlsx'));
    expect(ran.status).toBe(0);
    expect(ran.err).toMatch(/Pivot tables/);
  });

  it('says what is wrong with the target before it begins', async () => {
    const ran = await narrows('fill', inFolder('book.xlsx'), '-o', inFolder('no-such-folder/out.xlsx'));
    expect(ran.status).toBe(2);
    expect(ran.err).toMatch(/folder/);
    expect((await narrows('fill', inFolder('book.xlsx'), '-o', folder)).status).toBe(2);
    expect((await narrows('fill', inFolder('book.xlsx'))).status).toBe(2);
  });
});
