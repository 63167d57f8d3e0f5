import { tradeFactRows } from '../../src/tables/library/trade-facts.ts';
import type { ModelSheet } from '../../src/workbook/model.ts';
import { printed } from '../layout.ts';
import { roomFor } from '../readable.ts';

const METHOD = [
  'A rig is worked out part by part from the pump inlet to the system; gas in it is at one temperature and the flow steady at each moment.',
  'Tubes and hoses: one equation from molecular through slip, laminar and turbulent flow to choking, with entrance, exit and bend losses and end correction.',
  'Openings: ISO 6358-1 ellipse in the continuum, effusion in molecular flow, joined between; the shape between is from memory and good to about 3 %.',
  'Valves by Kv or Cv: IEC 60534-2-1, choked flow included.',
  'Labour: attended and waiting minutes of the steps on Units and Conditions; risk by sampling the factors; crews by list scheduling with bounds.',
  'Pull-down: V dp/dt = -S(p) p + load, on one curve of effective speed a rig, gas and temperature.',
];

const LIMITS = [
  'Dry gas only: water, ice and refrigerant dissolved in oil make a real evacuation longer than the minutes shown.',
  'The system is one volume at one pressure: the far end of a long pipe run lags behind.',
  'A pump keeps its rated speed down to near its ultimate pressure; worn pumps and wet oil do worse.',
  'Leak and outgassing are 0 unless Conditions says otherwise.',
  'Bores of hoses, depressors and cores vary by make: measure yours, or fit a part to a meter reading with RIG.FIT.',
];

const SOURCES = [
  'Copper tube: ASTM B280 nominal dimensions; EN 12735-1 with walls as printed in installation manuals, some from memory.',
  'Flare bores: SAE J512 / J513 (from memory). Hose bores, pump ratings, manifolds: common practice, no source.',
  'Depressor and core: effective bores within the usual range, settled by the readings that the trade states (basis: fitted).',
  'Minutes of set-up, looks, holds and pack-up, and the factors of the risk: common practice, no source. Rates and prices: examples.',
  'Cautions: each row names its source; ANSI/ASHRAE Standard 15, IEC 60335-2-40, OSHA and EPA rules among them.',
  'Reference pressures: 500 micron is 66.7 Pa; 1 micron of mercury is 0.133322 Pa.',
];

const THEIRS_AND_OURS =
  'Theirs: common practice, no source. Ours: worked out from the parts library when this book was built; air at 20 C, standard atmosphere.';

interface Section {
  readonly heading: string;
  readonly lines: readonly string[];
}

const SECTIONS: readonly Section[] = [
  { heading: 'How it is worked out', lines: METHOD },
  { heading: 'Limits of the models', lines: LIMITS },
  { heading: 'Sources', lines: SOURCES },
];

const WIDTHS = [58, 30, 26, 9, 80];
const FIRST_ROW = 3;

export function notesSheet(): ModelSheet {
  const rows = SECTIONS.flatMap(({ heading, lines }) => [
    [{ value: heading, look: 'heading' as const }],
    ...lines.map((line) => [{ value: line, look: 'text' as const, wrap: roomFor(line, 'text', WIDTHS) !== undefined }]),
    [null],
  ]);
  const factsRow = FIRST_ROW + rows.length;
  const texts = rows.map(([cell]) => (typeof cell === 'object' && cell !== null ? cell.value : ''));
  const long = [
    ...texts.map((text, index) => ({ row: FIRST_ROW + index, room: roomFor(text, 'text', WIDTHS) })),
    { row: factsRow + 1, room: roomFor(THEIRS_AND_OURS, 'note', WIDTHS) },
  ].flatMap(({ row, room }) => (room === undefined ? [] : [{ row, ...room }]));
  const headerRow = factsRow + 2;
  const facts = tradeFactRows();
  const wrapped = (value: string) => ({ value, look: 'text' as const, wrap: true });
  return {
    name: 'Notes',
    widths: WIDTHS,
    heights: Object.fromEntries([
      ...long.map(({ row, height }) => [row, height]),
      ...facts.map((_, i) => [headerRow + 1 + i, 62]),
    ]),
    merges: long.map(({ row, last }) => `A${row}:${last}${row}`),
    tabColour: '8A8A8A',
    cells: { A1: { value: 'Notes: methods, limits, sources', look: 'title' } },
    blocks: [
      { at: `A${FIRST_ROW}`, rows },
      {
        at: `A${factsRow}`,
        rows: [
          [{ value: 'What the trade says, and what comes out here', look: 'heading' as const }],
          [
            {
              value: THEIRS_AND_OURS,
              look: 'note' as const,
              wrap: true,
            },
          ],
          ['Set-up', 'Theirs', 'Ours', 'Agree', 'Why'].map((value) => ({ value, look: 'header' as const })),
          ...facts.map(({ fact, theirs, ours, agrees, why }) => [
            wrapped(fact),
            wrapped(theirs),
            wrapped(ours),
            wrapped(agrees ? 'yes' : 'no'),
            wrapped(why),
          ]),
        ],
      },
    ],
    print: printed({ headerRow, area: 'A:E' }),
  };
}
