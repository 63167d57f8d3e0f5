import { expect, test } from 'vitest';
import { functions } from '../../src/functions/index.ts';
import { VERSION } from '../../src/functions/version.ts';
import { narrows } from './run.ts';

test('the list names every function with its arguments, optional ones in brackets', async () => {
  const { status, out } = await narrows(['list']);
  expect(status).toBe(0);
  for (const fn of functions) expect(out).toContain(`NARROWS.${fn.id}(`);
  expect(out).toContain('NARROWS.TUBE.BORE(size, [standard])');
});

test('the list as JSON has each function once, with what a reader of it needs', async () => {
  const { status, out } = await narrows(['list', '--json']);
  expect(status).toBe(0);
  const listed = JSON.parse(out) as { name: string; group: string; summary: string; parameters: unknown[] }[];
  expect(listed.map(({ name }) => name)).toEqual(functions.map(({ id }) => `NARROWS.${id}`));
  for (const { summary, group } of listed) expect(`${group} ${summary}`).toMatch(/\w+ .{10}/);
});

test('help names the commands', async () => {
  const { status, out } = await narrows(['--help']);
  expect(status).toBe(0);
  for (const command of ['cell', 'list', 'open', 'fill']) expect(out).toContain(command);
});

test('the version that is asked for is that of the package', async () => {
  const { status, out } = await narrows(['--version']);
  expect([status, out.trim()]).toEqual([0, VERSION]);
});
