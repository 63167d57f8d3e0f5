import { describe, expect, it } from 'vitest';
import { tableText } from '../../src/hosts/cli/printing.ts';

const WORDS = 'Recover the refrigerant first, to the legal level, with certified equipment and a certified technician.';
const TABLE = [
  ['Step', 'Minutes (min)', 'Caution'],
  ['evacuation', 12.3456789, WORDS],
  ['recovery', 7, 'none'],
];

describe('a table as text', () => {
  it('is a line for each row where its reader is no terminal', () => {
    const lines = tableText(TABLE).split('\n');
    expect(lines).toHaveLength(3);
    expect(lines[1]).toBe(`evacuation        12.3457  ${WORDS}`);
  });

  it.each([60, 80, 110])(
    'breaks words over lines, not numbers, so that it fits a terminal of %d characters',
    (width) => {
      const lines = tableText(TABLE, width).split('\n');
      expect(lines.length).toBeGreaterThan(3);
      for (const line of lines) expect(line.length).toBeLessThanOrEqual(width);
      const text = lines.join('\n');
      for (const whole of ['12.3457', 'Minutes (min)', 'evacuation', 'refrigerant', 'technician.'])
        expect(text).toContain(whole);
      // the words in their order
      const caution = lines.map((line) => line.slice(27)).join(' ');
      expect(caution.replace(/\s+/g, ' ')).toContain(WORDS);
    },
  );

  it('is left as it is where it fits, or where nothing more can be broken', () => {
    expect(tableText(TABLE, 400)).toBe(tableText(TABLE));
    const narrow = tableText(TABLE, 10).split('\n');
    expect(Math.max(...narrow.map((line) => line.length))).toBeLessThanOrEqual(10 + 2 + 13 + 2 + 14);
  });
});
