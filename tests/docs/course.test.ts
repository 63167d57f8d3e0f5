import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, it } from 'vitest';
import { jsonLines, narrows } from '../cli/run.ts';

const folder = fileURLToPath(new URL('../../docs/course', import.meta.url));
const lessons = readdirSync(folder).filter((name) => /^\d\d-.*\.md$/.test(name));

interface Shown {
  readonly lesson: string;
  readonly formula: string;
  /** cells as printed, row by row */
  readonly rows: readonly (readonly string[])[];
}

const shown: readonly Shown[] = lessons.flatMap((lesson) =>
  [...readFileSync(`${folder}/${lesson}`, 'utf8').matchAll(/```narrows\n(=.*)\n([\s\S]*?)\n```/g)].map(
    ([, formula = '', result = '']) => ({
      lesson,
      formula,
      rows: result.split('\n').map((row) => row.split('|').map((cell) => cell.trim())),
    }),
  ),
);

let worked: readonly { readonly value?: unknown; readonly message?: string }[] = [];

beforeAll(async () => {
  const { out } = await narrows(['cell', '--lines'], `${shown.map(({ formula }) => formula).join('\n')}\n`);
  worked = jsonLines(out) as typeof worked;
}, 60_000);

/** A number as shown stands for every number that rounds to it at its digits. */
function isShownAs(value: unknown, text: string): boolean {
  if (typeof value !== 'number') return String(value ?? '') === text;
  const decimals = text.split('.')[1]?.length ?? 0;
  return Math.abs(value - Number(text)) <= 0.5 * 10 ** -decimals * (1 + 1e-9);
}

describe('the course', () => {
  it('has ten lessons, each with a formula to type', () => {
    expect(lessons).toHaveLength(10);
    for (const lesson of lessons)
      expect(
        shown.some((one) => one.lesson === lesson),
        lesson,
      ).toBe(true);
    for (const lesson of lessons) expect(readFileSync(`${folder}/${lesson}`, 'utf8')).toContain('**Why.**');
  });

  it.each(shown.map((one, index) => [one.lesson, one.formula, index] as const))(
    '%s shows what %s gives, at the digits shown',
    (_, formula, index) => {
      const { value, message } = worked[index] ?? {};
      expect(message, formula).toBeUndefined();
      const rows = Array.isArray(value) ? (value as unknown[][]) : [[value]];
      const expected = shown[index]?.rows ?? [];
      expect(rows.length, formula).toBe(expected.length);
      rows.forEach((row, at) => {
        row.forEach((cell, column) => {
          const text = expected[at]?.[column] ?? '';
          expect(isShownAs(cell, text), `${formula}: ${String(cell)} is shown as ${text}`).toBe(true);
        });
      });
    },
  );

  it('takes a number for another only within half a unit of its last digit', () => {
    expect(isShownAs(2.6384, '2.64')).toBe(true);
    expect(isShownAs(2.6449, '2.64')).toBe(true);
    expect(isShownAs(2.6451, '2.64')).toBe(false);
    expect(isShownAs('', '0')).toBe(false);
  });
});
