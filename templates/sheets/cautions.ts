import { cautionSteps, cautionsFor, refrigerantClasses } from '../../src/tables/library/cautions.ts';
import type { ModelSheet } from '../../src/workbook/model.ts';
import { letter, printed } from '../layout.ts';
import { spilledColumn, widthOf } from '../spilled.ts';
import { choice } from './lists.ts';

const ID = 'CAUTIONS';
const HEADER_ROW = 7;
const STEP = 'evacuation';
/** as many notes as there are in all */
const MOST_NOTES = cautionsFor('all').length;
/** Part of a column's width that text fills before it wraps, where the book's font is missing and a wider one stands in. */
const FILLED = 0.84;
/** pt of a line, and of the room around the lines of a row */
const LINE = 14;
const ROOM = 4;
const LEAST_LINES = 2;
const WIDTHS: Readonly<Record<string, number>> = { Severity: 12, Caution: 80, Why: 44, Source: 50 };

/** Lines that the note in a place of the list takes at most, whatever the step. */
function linesAt(place: number): number {
  return cautionSteps.reduce((most, step) => {
    const note = cautionsFor(step)[place];
    if (note === undefined) return most;
    const lines = [
      [note.text, WIDTHS.Caution],
      [note.why, WIDTHS.Why],
      [note.source, WIDTHS.Source],
    ] as const;
    return Math.max(most, ...lines.map(([words, width = 0]) => Math.ceil(words.length / (FILLED * width))));
  }, LEAST_LINES);
}

export function cautionsSheet(): ModelSheet {
  const columns = widthOf(ID);
  const end = letter(columns - 1);
  const shown = cautionsFor(STEP).length;
  const widths = Array.from({ length: columns }, () => 16);
  for (const [name, width] of Object.entries(WIDTHS)) widths[spilledColumn(ID, name).charCodeAt(0) - 65] = width;
  return {
    name: 'Cautions',
    widths,
    heights: Object.fromEntries(
      Array.from({ length: MOST_NOTES }, (_, i) => [HEADER_ROW + 1 + i, LINE * linesAt(i) + ROOM]),
    ),
    frozenRows: HEADER_ROW,
    tabColour: 'B3541E',
    cells: {
      A1: { value: 'Cautions', look: 'title' },
      A2: {
        value: 'Local codes and licensed practice come first. Read these before the work, not after.',
        look: 'caution',
        wrap: false,
      },
      A4: { value: 'Step', look: 'label' },
      B4: { value: STEP, look: 'input' },
      A5: { value: 'Refrigerant', look: 'label' },
      B5: { value: null, look: 'input' },
      C5: {
        value: 'a refrigerant or a safety class such as A2L; blank: notes for all of them',
        look: 'note',
        wrap: false,
      },
      [`A${HEADER_ROW}`]: {
        formula: '=NARROWS.CAUTIONS(B4,B5)',
        spills: `A${HEADER_ROW}:${end}${HEADER_ROW + shown}`,
        look: 'header',
      },
    },
    blocks: [
      { at: `B${HEADER_ROW}`, rows: [Array.from({ length: columns - 1 }, () => null)], look: 'header' },
      {
        at: `A${HEADER_ROW + 1}`,
        rows: Array.from({ length: MOST_NOTES }, () => Array.from({ length: columns }, () => ({ wrap: true }))),
        look: 'formula',
      },
    ],
    merges: [`A2:${end}2`],
    validations: [
      { range: 'B4', list: [...cautionSteps], title: 'Step', message: 'Pick a step from the list.', strict: true },
      {
        range: 'B5',
        list: choice('refrigerants'),
        title: 'Refrigerant',
        message: `${refrigerantClasses.size} refrigerants are known; a safety class such as A3 may be typed instead.`,
      },
    ],
    print: printed({ headerRow: HEADER_ROW, area: `A:${end}` }),
  };
}
