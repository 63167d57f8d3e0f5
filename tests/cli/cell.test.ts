import { spawn } from 'node:child_process';
import { mkdtemp, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { bin, jsonLines, narrows } from './run.ts';

// 3/8 in tube: outside diameter 9.525 mm less two walls of 0.813 mm (ASTM B280, annealed coils: 0.375 in and 0.032 in)
const BORE = 9.525 - 2 * 0.8128;

test('a formula prints its value, with or without the equals sign, from any folder', async () => {
  const [typed, bare] = await Promise.all([
    narrows(['cell', '=NARROWS.TUBE.BORE("3/8 in")']),
    narrows(['cell', 'narrows.tube.bore("3/8 in")', '--json']),
  ]);
  expect(typed).toMatchObject({ status: 0, err: '' });
  expect(Number(typed.out)).toBeCloseTo(BORE, 2);
  expect(bare.status).toBe(0);
  expect((JSON.parse(bare.out) as { value: number }).value).toBeCloseTo(BORE, 3);
});

test('a pump may be given by its speed table, semicolons and all', async () => {
  const parts = '{"Rig","Kind","Speed table";"R","pump","1 bar 2 m3/h; 1 Pa 2 m3/h"}';
  const pull = '{"Start pressure","1 bar";"Target pressure","10 Pa"}';
  const { out } = await narrows(['cell', `=NARROWS.EVAC.TIME(20,${parts},"R",${pull})`]);
  // V/S ln(p0/p1) = 0.02 m3/(2 m3/h) x ln(1e4) = 5.5262 min
  expect(Number(out)).toBeCloseTo(5.5262, 4);
});

test('a table prints as aligned text, and as rows in JSON', async () => {
  const formula = '={"Part","Pressure (Pa)";"hose",812.4;"core",1013.25123456}';
  const [text, json] = await Promise.all([narrows(['cell', formula]), narrows(['cell', formula, '--json'])]);
  expect(text.out.split('\n')).toEqual(['Part  Pressure (Pa)', 'hose          812.4', 'core        1013.25', '']);
  expect(JSON.parse(json.out)).toEqual({
    value: [
      ['Part', 'Pressure (Pa)'],
      ['hose', 812.4],
      ['core', 1013.25123456],
    ],
  });
});

test('an error goes to standard error with its words, and the status is 1', async () => {
  const [plain, json, inTable] = await Promise.all([
    narrows(['cell', '=NARROWS.TUBE.BORE("9 in")']),
    narrows(['cell', '=1/0', '--json']),
    narrows(['cell', '=NARROWS.TUBE.BORE({"3/8 in","9 in"})']),
  ]);
  expect(plain).toMatchObject({ status: 1, out: '' });
  expect(plain.err).toMatch(/^#(N\/A|VALUE!): .*9 in/);
  expect(json.status).toBe(1);
  expect(JSON.parse(json.out)).toMatchObject({ error: '#DIV/0!' });
  expect(inTable.status).toBe(1);
  expect(inTable.err).toMatch(/^B1 #/);
});

test('one formula a line gives one JSON line for each, in order, whatever the line holds', async () => {
  const lines = [
    '=1+2.7',
    '',
    'NARROWS.TUBE.BORE("3/8 in")',
    '={"Rig","Kind","Bore (mm)";"a","hose",4.8}',
    '=NOPE(1)',
    '   ',
    '=(',
    '"; drop table',
    '\u0000\u0001',
    '=LET(x,2,x*3)',
    `=${'('.repeat(20_000)}`,
    '{"json": true}',
    '=SUM(A1#)',
    '=_xlfn.XLOOKUP(2,{1,2,3},{4,5,6})',
    '=A1',
    '=IFERROR(NARROWS.TUBE.BORE("9 in"),0)',
  ];
  const { status, out } = await narrows(['cell', '--lines'], lines.join('\r\n'));
  const answers = jsonLines(out);
  expect(status).toBe(1);
  expect(answers).toHaveLength(lines.length);
  expect(answers[0]).toEqual({ value: 3.7 });
  expect(answers[1]).toMatchObject({ error: '#VALUE!' });
  expect(answers[3]).toEqual({
    value: [
      ['Rig', 'Kind', 'Bore (mm)'],
      ['a', 'hose', 4.8],
    ],
  });
  expect(answers[4]).toMatchObject({ error: '#NAME?', message: expect.stringContaining('NOPE') });
  expect(answers[9]).toEqual({ value: 6 });
  expect(answers[12]).toMatchObject({ error: '#REF!', message: expect.stringContaining('A1') });
  expect(answers[13]).toEqual({ value: 5 });
  expect(answers[14]).toEqual({ value: '' });
  expect(answers[15]).toEqual({ value: 0 });
});

test('a line end after the last line is no line of its own; no input gives no output', async () => {
  const [ended, none] = await Promise.all([narrows(['cell', '--lines'], '=1\n=2\n'), narrows(['cell', '--lines'], '')]);
  expect(ended).toMatchObject({ status: 0, out: '{"value":1}\n{"value":2}\n' });
  expect(none).toMatchObject({ status: 0, out: '' });
});

test('spaces around a formula do not count', async () => {
  const { out } = await narrows(['cell', '--lines'], '  =1+1  \n\t= 2 + 2\n  3+3\n');
  expect(out.trim().split('\n')).toEqual(['{"value":2}', '{"value":4}', '{"value":6}']);
});

test('2,000 lines are all answered, each by its own formula', async () => {
  const lines = Array.from({ length: 2000 }, (_, index) => `=NARROWS.CONVERT(${index},"ft","m")/0.3048`);
  const { status, out } = await narrows(['cell', '--lines'], `${lines.join('\n')}\n`);
  const answers = jsonLines(out) as { value: number }[];
  expect(status).toBe(0);
  expect(answers).toHaveLength(2000);
  for (const [index, answer] of answers.entries()) expect(answer.value).toBeCloseTo(index, 6);
});

test('text with any letters passes through whole, also where the pipe cuts it', async () => {
  const text = 'Kältemittel 冷媒 💧'.repeat(9000);
  const { out } = await narrows(['cell', '--lines'], `=LEN("${text}")\n="${text}"\n`);
  const [length, same] = jsonLines(out) as { value: unknown }[];
  expect(length).toEqual({ value: text.length });
  expect(same).toEqual({ value: text });
});

test('lines that come slowly are answered as they come', async () => {
  const child = spawn(process.execPath, [bin, 'cell', '--lines']);
  const answers: string[] = [];
  let told: (() => void) | undefined;
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    answers.push(text.trim());
    told?.();
  });
  const ask = (line: string): Promise<void> =>
    new Promise((resolve) => {
      told = resolve;
      child.stdin.write(`${line}\n`);
    });
  await ask('=1+1');
  expect(answers).toEqual(['{"value":2}']);
  await ask('=2+2');
  expect(answers).toEqual(['{"value":2}', '{"value":4}']);
  child.stdin.end();
  expect(await new Promise((resolve) => child.on('close', resolve))).toBe(0);
});

test('bad use and files that are no workbooks end with status 2 and one line', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'narrows-'));
  const text = join(folder, 'notes.xlsx');
  await writeFile(text, 'not a workbook');
  const ended = await Promise.all([
    narrows(['cell', '=1', '--book', join(folder, 'missing.xlsx')]),
    narrows(['cell', '=1', '--book', text]),
    narrows(['cell', '=1', '--book', folder]),
    narrows(['cell', '=1', '--sheet', 'Riser']),
    narrows(['cell']),
    narrows(['cell', '=1', '--lines']),
    narrows(['open', join(folder, 'missing.xlsx')]),
  ]);
  for (const { status, out, err } of ended) {
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(err).toMatch(/^narrows: .+\n$/);
  }
  for (const args of [['nope'], ['cell', '=1', '--nope'], ['cell', '=1', '=2']]) {
    const { status, err } = await narrows(args);
    expect(status).toBe(2);
    expect(err).toMatch(/^error: /);
  }
  await rm(folder, { recursive: true });
});

test('the command works through a link, as npm installs it', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'narrows-'));
  const link = join(folder, 'narrows');
  await symlink(bin, link);
  const child = spawn(process.execPath, [link, 'cell', '=6*7'], { cwd: folder });
  let out = '';
  child.stdout.setEncoding('utf8').on('data', (part: string) => {
    out += part;
  });
  expect(await new Promise((resolve) => child.on('close', resolve))).toBe(0);
  expect(out).toBe('42\n');
  await rm(folder, { recursive: true });
});
