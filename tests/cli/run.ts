import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

export const bin = fileURLToPath(new URL('../../src/hosts/cli/narrows.mjs', import.meta.url));

export interface Ended {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs the command as a person does, from another folder, with `input` on its standard input. */
export function narrows(args: readonly string[], input: string | Buffer = '', cwd = '/'): Promise<Ended> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [bin, ...args], { cwd });
    let out = '';
    let err = '';
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      out += text;
    });
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      err += text;
    });
    child.on('error', reject);
    child.on('close', (status) => resolve({ status, out, err }));
    child.stdin.on('error', () => {});
    child.stdin.end(input);
  });
}

export const jsonLines = (out: string): unknown[] =>
  out
    .split('\n')
    .slice(0, -1)
    .map((line) => JSON.parse(line));
