import { spawn, spawnSync } from 'node:child_process';
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  watch,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { replaceFile } from '../../src/hosts/cli/replace-file.ts';
import { newWorkbook } from '../../src/workbook/build.ts';
import { readWorkbook } from '../../src/workbook/read.ts';
import { bin, narrows } from './run.ts';

const KILLS = 20;
/** Rows of text that make the copy large enough for its writing to take a while. */
const ROWS = 4000;
const noPart = (names: readonly string[]): readonly string[] => names.filter((name) => name.endsWith('.part'));

let folder = '';
let book = '';
let whole: Buffer;
const inFolder = (...names: string[]): string => join(folder, ...names);

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'narrows-faults-'));
  book = inFolder('book.xlsx');
  let seed = 1;
  const noise = (): string => {
    seed = (seed * 48271) % 2147483647;
    return `${seed.toString(36)}${(seed * 7919).toString(36)}`;
  };
  const lines = Array.from({ length: ROWS }, () => Array.from({ length: 12 }, noise));
  writeFileSync(
    book,
    await newWorkbook({
      title: 'Bores',
      sheets: [
        {
          name: 'Bores',
          cells: { A1: { formula: '=NARROWS.CONVERT(1,"in","mm")' } },
          blocks: [{ at: 'A3', rows: lines }],
        },
      ],
    }),
  );
  expect((await narrows(['fill', book, '-o', inFolder('whole.xlsx')])).status).toBe(0);
  whole = readFileSync(inFolder('whole.xlsx'));
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Starts `fill` and kills it `delay` ms after it has begun to write, or after its start. True when it came to its end. */
async function killed(output: string, delay: number, whenWriting: boolean): Promise<boolean> {
  const place = join(output, '..');
  const child = spawn(process.execPath, [bin, 'fill', book, '-o', output], { stdio: 'ignore' });
  const ended = new Promise<boolean>((resolve) => {
    child.on('exit', (_, signal) => resolve(signal === null));
  });
  const watching = whenWriting
    ? watch(place, (_, name) => {
        if (name?.endsWith('.part')) setTimeout(() => child.kill('SIGKILL'), delay);
      })
    : undefined;
  if (!whenWriting) setTimeout(() => child.kill('SIGKILL'), delay);
  const result = await ended;
  watching?.close();
  return result;
}

describe('a fill that is killed', () => {
  it('leaves the copy of before or the new one, never half, and the next one clears what it left', async () => {
    const place = inFolder('killed');
    mkdirSync(place);
    const output = join(place, 'out.xlsx');
    const before = Buffer.from('the copy of before');
    let untouched = 0;
    for (let kill = 0; kill < KILLS; kill++) {
      writeFileSync(output, before);
      // half of them at any moment from the start on, half while the copy is being written
      const writing = kill % 2 === 1;
      await killed(output, writing ? kill / 4 : kill * 40, writing);
      const now = readFileSync(output);
      const isBefore = now.equals(before);
      if (isBefore) untouched++;
      expect(isBefore || now.equals(whole), `kill ${kill}`).toBe(true);
      // nothing but a hidden file of its own beside it
      expect(readdirSync(place).filter((name) => !/^(?:out\.xlsx|\.out\.xlsx\.\d+\.part)$/.test(name))).toEqual([]);
    }
    expect(untouched, 'some were killed in time').toBeGreaterThan(0);
    expect((await narrows(['fill', book, '-o', output])).status).toBe(0);
    expect(readFileSync(output).equals(whole)).toBe(true);
    expect(readdirSync(place)).toEqual(['out.xlsx']);
  }, 180_000);

  it('does not touch the partial file of one that is still at work', async () => {
    const place = inFolder('two');
    mkdirSync(place);
    const child = spawn(process.execPath, ['-e', 'setTimeout(() => {}, 60000)'], { stdio: 'ignore' });
    try {
      const theirs = join(place, `.out.xlsx.${child.pid}.part`);
      const gone = join(place, '.out.xlsx.999999999.part');
      for (const file of [theirs, gone]) writeFileSync(file, 'half');
      writeFileSync(join(place, '.out.xlsx.notes.part'), 'of someone else');
      await replaceFile(join(place, 'out.xlsx'), whole);
      expect(readdirSync(place).sort()).toEqual(
        [`.out.xlsx.${child.pid}.part`, '.out.xlsx.notes.part', 'out.xlsx'].sort(),
      );
    } finally {
      child.kill();
      await wait(1);
    }
  });
});

/** `fill` in a shell that prepares its surroundings; `$1` is the output. */
function inShell(script: string, output: string) {
  return spawnSync('bash', ['-c', script, 'bash', output, process.execPath, bin, book], { encoding: 'utf8' });
}
const hasBash = spawnSync('bash', ['-c', 'ulimit -f']).status === 0;
const mayMount =
  spawnSync('unshare', ['-m', 'sh', '-c', 'mount -t tmpfs -o size=64k none /mnt'], { encoding: 'utf8' }).status === 0;

describe('a copy that cannot be written', () => {
  it.skipIf(!hasBash)('is told in one line where a file may not be that large, and the copy of before stays', () => {
    const place = inFolder('limited');
    mkdirSync(place);
    const output = join(place, 'out.xlsx');
    writeFileSync(output, 'the copy of before');
    const { status, stderr } = inShell('ulimit -f 40; exec "$2" "$3" fill "$4" -o "$1"', output);
    expect(stderr).toBe(`narrows: cannot write ${output}: the file would be larger than is allowed here\n`);
    expect(status).toBe(2);
    expect(readFileSync(output, 'utf8')).toBe('the copy of before');
    expect(readdirSync(place)).toEqual(['out.xlsx']);
  });

  it.skipIf(!mayMount)('is told in one line where the disk is full, and the copy of before stays', () => {
    const place = inFolder('full');
    mkdirSync(place);
    const output = join(place, 'out.xlsx');
    const script = `mount -t tmpfs -o size=64k none "$(dirname "$1")" && echo before > "$1" &&
      { "$2" "$3" fill "$4" -o "$1"; echo "status $?"; cat "$1"; ls -A "$(dirname "$1")"; }`;
    const { stdout, stderr } = spawnSync(
      'unshare',
      ['-m', 'bash', '-c', script, 'bash', output, process.execPath, bin, book],
      { encoding: 'utf8' },
    );
    expect(stderr).toBe(`narrows: cannot write ${output}: the disk is full\n`);
    expect(stdout).toBe('status 2\nbefore\nout.xlsx\n');
  });

  it('is told in one line where its folder or the copy of before may not be written to', async () => {
    const place = inFolder('closed');
    mkdirSync(place);
    const output = join(place, 'out.xlsx');
    writeFileSync(output, 'the copy of before');
    const asAnyone = process.geteuid?.() === 0;
    const { fillBook } = await import('../../src/hosts/cli/fill-book.ts');
    const fill = (): Promise<unknown> => fillBook({ book, output, values: false }, () => {});
    chmodSync(folder, 0o755);
    chmodSync(output, 0o444);
    chmodSync(place, 0o777);
    // Whoever may do everything is let off by the system: those cases run as somebody else.
    if (asAnyone) process.seteuid?.(65534);
    try {
      await expect(fill()).rejects.toThrow(/cannot write .*out\.xlsx: it is there already and may not be written to/);
    } finally {
      if (asAnyone) process.seteuid?.(0);
    }
    chmodSync(output, 0o666);
    chmodSync(place, 0o555);
    if (asAnyone) process.seteuid?.(65534);
    try {
      await expect(fill()).rejects.toThrow(/cannot write .*out\.xlsx: (?:the folder .* may|it may) not be written to/);
    } finally {
      if (asAnyone) process.seteuid?.(0);
      chmodSync(place, 0o755);
    }
    expect(readFileSync(output, 'utf8')).toBe('the copy of before');
    expect(readdirSync(place)).toEqual(['out.xlsx']);
  });

  it('keeps who may read it', async () => {
    const output = inFolder('private.xlsx');
    writeFileSync(output, 'the copy of before');
    chmodSync(output, 0o600);
    await replaceFile(output, whole);
    expect(statSync(output).mode & 0o777).toBe(0o600);
  });

  it('does not lose the copies of the other workbooks of the call', async () => {
    const out = inFolder('several');
    mkdirSync(out);
    const books = ['a', 'b', 'c'].map((name) => inFolder(`${name}.xlsx`));
    for (const file of books) writeFileSync(file, readFileSync(book));
    mkdirSync(join(out, 'b.xlsx'));
    const { status, err } = await narrows(['fill', ...books, '--out', out]);
    expect(status).toBe(2);
    expect(err).toBe(`narrows: cannot write ${join(out, 'b.xlsx')}: it is a folder\n`);
    for (const name of ['a.xlsx', 'c.xlsx']) {
      expect(existsSync(join(out, name))).toBe(true);
      const { snapshot } = await readWorkbook(readFileSync(join(out, name)));
      // 1 in = 25.4 mm by definition
      expect(snapshot.sheets['sheet-1']?.cellData?.[0]?.[0]?.v).toBe(25.4);
    }
    expect(noPart(readdirSync(out))).toEqual([]);
  });
});
