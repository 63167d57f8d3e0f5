import { describe, expect, it } from 'vitest';
import { callById } from '../../../src/functions/index.ts';

const RUNS = [
  ['Unit', 'Bore (mm)', 'Size', 'Length (m)', 'Count', 'Component', 'Volume (L)'],
  ['cold room', 10, '', 5, 2, '', ''],
  ['', 10, '', 3, '', '', ''],
  ['', '', '', '', '', 'coil', 1.5],
  ['office', 20, '', 1, '', '', ''],
];
/** L in a metre of tube of 10 mm */
const PER_METRE = (Math.PI / 4) * 0.01 ** 2 * 1000;

describe('RUN.VOLUME', () => {
  it('adds pipes and components of one unit, or of all', () => {
    const room = 13 * PER_METRE + 1.5;
    expect(callById('RUN.VOLUME', [RUNS, 'Cold Room'])).toMatchObject({ value: expect.closeTo(room, 9) });
    expect(callById('RUN.VOLUME', [RUNS])).toMatchObject({ value: expect.closeTo(room + 4 * PER_METRE, 9) });
  });

  it('works down a column of units', () => {
    expect(callById('RUN.VOLUME', [RUNS, [['cold room'], ['office']]])).toMatchObject({
      value: [[expect.closeTo(13 * PER_METRE + 1.5, 9)], [expect.closeTo(4 * PER_METRE, 9)]],
    });
  });

  it('lists the units for one that there is not', () => {
    expect(callById('RUN.VOLUME', [RUNS, 'attic'])).toMatchObject({
      ok: false,
      code: '#N/A',
      message: expect.stringContaining('cold room, office'),
    });
  });
});

describe('RUN.TABLE', () => {
  it('sums by unit and size and says from which rows', () => {
    const outcome = callById('RUN.TABLE', [RUNS]);
    expect(outcome).toMatchObject({
      value: [
        ['Unit', 'Size or component', 'Bore (mm)', 'Length (m)', 'Volume (L)', 'Rows'],
        ['cold room', 'bore', 10, 13, expect.closeTo(13 * PER_METRE, 9), '2-3'],
        ['cold room', 'coil', '', '', 1.5, '4'],
        ['office', 'bore', 20, 1, expect.closeTo(4 * PER_METRE, 9), '5'],
      ],
    });
  });
});
