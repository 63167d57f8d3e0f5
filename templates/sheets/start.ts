import type { ModelCell, ModelSheet } from '../../src/workbook/model.ts';
import { printed } from '../layout.ts';
import { SCENARIO } from '../scenario.ts';
import { crewFigures } from './crew.ts';
import { labourFigures, NONE } from './labour.ts';
import { resultFigures } from './results.ts';

/** Short enough for one line on a narrow screen, too. */
const STEPS = [
  'Conditions: set gas, temperature and the pressure to reach.',
  'Parts: describe your rigs, one row a part, from the pump on.',
  'Pipe runs: enter tube sizes, lengths, component volumes.',
  'Units: one row a group of equal units, with rig and water.',
  'The rest follows by itself; read Cautions before the work.',
];

const { savesHours, savesMoney, gear, otherGear } = labourFigures;
const savings = `"and "&TEXT(${savesMoney},"#,##0")&" of labour; "`;
const gearWords = `"gear "&TEXT(${otherGear},"#,##0")&", now "&TEXT(${gear},"#,##0")`;

/** A text that is left out, and its end, where the cell with what it adds is blank. */
const also = (cell: string, words: string): string => `IF(${cell}="","",${words})`;
/** What the figures of a sheet are without, or why there are none. */
const without = (sheet: string, words: string): string => also(words, `${words}&" on ${sheet}"`);
/** The same after other words, where those stand there. */
const withoutAfter = (stands: string, sheet: string, words: string): string =>
  also(words, `IF(${stands},"; ","")&${words}&" on ${sheet}"`);

/** What the plain sum hides: hours run over more often than under. */
const riskKnown = `COUNT(${labourFigures.attended},${labourFigures.half},${labourFigures.eighty})=3`;
const riskWords =
  `IF(${riskKnown},` +
  `"with risk: P50 "&TEXT(${labourFigures.half},"#,##0")&" h, P80 "&TEXT(${labourFigures.eighty},"#,##0")&" h","")`;

const noRisk = also(labourFigures.noRisk, `IF(${labourFigures.without}="","","; ")&${labourFigures.noRisk}`);
const kept = also(labourFigures.kept, `"; "&${labourFigures.kept}`);

const isPlanned = `ISNUMBER(${crewFigures.overnight})`;
const nights = `IF(${isPlanned},${crewFigures.overnight}&" units connected over a night","")`;

const FIGURES = [
  [
    'Attended hours of the whole project',
    `=${labourFigures.attended}`,
    '#,##0.0',
    'h',
    `=${riskWords}&${withoutAfter(riskKnown, 'Labour', labourFigures.without)}&${noRisk}`,
  ],
  [
    'Working days by the plan of the crews',
    `=${crewFigures.days}`,
    '#,##0',
    'days',
    `=${nights}&${withoutAfter(isPlanned, 'Crew', crewFigures.without)}`,
  ],
  [
    'Better gear saves, waiting included',
    `=IF(${savesHours}=${NONE},"",${savesHours})`,
    '#,##0.0',
    'h',
    `=IF(${savesHours}=${NONE},"no other rig is given on Units",IF(ISTEXT(${savesHours}),"",${savings}&IF(COUNT(${gear},${otherGear})=2,${gearWords},"a rig has no Cost on Parts")&${kept}))`,
  ],
  [
    'Pump hours, one unit after another',
    `=${resultFigures.hours}`,
    '#,##0.0',
    'h',
    `=${without('Results', resultFigures.without)}`,
  ],
] as const;

/** Rows that stand below a table and do not count, on the first sheet that has some; what else a sheet notes stays there. */
const ROWS_BELOW = ['Units', 'Pipe runs', 'Parts'].reduceRight((rest, sheet) => {
  const told = sheet.includes(' ') ? `'${sheet}'!$A$3` : `${sheet}!$A$3`;
  return `IF(LEFT(${told},4)="Rows","${sheet}: "&${told},${rest})`;
}, '""');

/** Sheets beside the way from Conditions to Results, with what they show. */
const OTHERS: readonly (readonly [string, string])[] = [
  ['Curves', 'two rigs on one system, dry and wet: pressure, water and its temperature over time.'],
  [
    'Long line',
    'minutes at every node of a long pipe run, one port against two, and what the gauge at the port hides.',
  ],
  ['Breaks', 'a plan of pulls and nitrogen breaks, step by step, against one deep pull.'],
  ['Hold test', 'paste the readings of a hold test and read off leak, moisture or tight, and how sure that is.'],
];

/** What each of the three users does, at most three steps each. */
export const PATHS: readonly (readonly [string, readonly string[]])[] = [
  [
    'Estimator',
    [
      'Units: how many of what, and on which rig.',
      'Labour: your rates; hours and money. Risk: how sure.',
      'Crew: the days, and who is where.',
    ],
  ],
  [
    'Project engineer',
    ['Parts: describe the rigs.', 'One rig: what each part costs.', 'Long line, or Compare: what to change.'],
  ],
  [
    'Trainee',
    ['Compare: read off rig by rig.', 'Parts: change one part.', 'Compare again, and Curves for the reason.'],
  ],
];

/** A line for each step: its number, and what to do. */
function numbered(steps: readonly string[]): ModelCell[][] {
  return steps.map((step, index) => [
    { value: index + 1, look: 'label' },
    { value: step, look: 'text', wrap: false },
  ]);
}

const STEPS_ROW = 5;
const FIGURES_ROW = 12;
const PATHS_ROW = 17;
/** Rows of a path: who takes it, and the steps. */
const PATH_ROWS = 1 + Math.max(...PATHS.map(([, steps]) => steps.length));
/** Where the paths begin: two side by side, so that a window of 1280 by 800 px shows all of them. */
const PATH_SPOTS = PATHS.map((_, index) => ({
  column: index % 2 === 0 ? 'A' : 'D',
  row: PATHS_ROW + 1 + Math.floor(index / 2) * PATH_ROWS,
}));
const PATHS_END = PATHS_ROW + Math.ceil(PATHS.length / 2) * PATH_ROWS;
/** rows that the sections under the paths move down by */
const DOWN = PATHS_END - PATHS_ROW + 3;

/** Points of a row with one line, of one with two beside a figure for what it is without. */
const ONE_LINE = 15;
const TWO_LINES = 27;
const heightsOf = (from: number, rows: number, height: number): Record<number, number> =>
  Object.fromEntries(Array.from({ length: rows }, (_, index) => [from + index, height]));

export const startSheet: ModelSheet = {
  name: 'Start',
  widths: [5, 48, 15, 8, 50],
  heights: {
    ...heightsOf(STEPS_ROW, STEPS.length, ONE_LINE),
    ...heightsOf(FIGURES_ROW, FIGURES.length, TWO_LINES),
    ...heightsOf(PATHS_ROW + 1, PATHS_END - PATHS_ROW, ONE_LINE),
  },
  gridLines: false,
  tabColour: '2E7D5B',
  cells: {
    A1: { value: 'Evacuation times for a whole project', look: 'title' },
    A2: { value: `Example: ${SCENARIO}. Place, people and figures are invented.`, look: 'note', wrap: false },
    A3: { formula: `=${ROWS_BELOW}`, look: 'formula' },
    A4: { value: 'What to do', look: 'heading' },
    A11: { value: 'The answer in four figures', look: 'heading' },
    [`A${PATHS_ROW}`]: { value: 'Three ways through the book', look: 'heading' },
    [`A${16 + DOWN}`]: { value: 'Before you begin', look: 'heading' },
    [`A${17 + DOWN}`]: {
      value: 'Results are estimates. Local codes, the maker of the equipment and a licensed technician come first.',
      look: 'caution',
      wrap: false,
    },
    [`A${19 + DOWN}`]: { value: 'How to read the sheets', look: 'heading' },
    [`A${20 + DOWN}`]: { value: 'in', look: 'input', align: 'center' },
    [`B${20 + DOWN}`]: { value: 'Cells that look like this are yours to fill.', look: 'text' },
    [`A${21 + DOWN}`]: { value: 'out', look: 'formula', align: 'center' },
    [`B${21 + DOWN}`]: { value: 'Cells that look like this are worked out: leave them alone.', look: 'text' },
    [`A${23 + DOWN}`]: { value: 'The other sheets', look: 'heading' },
    [`A${29 + DOWN}`]: { value: 'If cells show a name error', look: 'heading' },
    [`A${30 + DOWN}`]: {
      value:
        'Then this program lacks the NARROWS functions. Single figures keep their stored values until they are worked out again.',
      look: 'text',
      wrap: false,
    },
    [`A${31 + DOWN}`]: {
      value:
        'Open the book with the add-in or the embedded sheet (in the pane: enter formulas again), or make a copy in values: narrows fill BOOK.xlsx --values -o COPY.xlsx',
      look: 'text',
      wrap: false,
    },
  },
  blocks: [
    { at: `A${STEPS_ROW}`, rows: numbered(STEPS) },
    {
      at: `B${24 + DOWN}`,
      rows: OTHERS.map(([sheet, shows]) => [{ value: `${sheet}: ${shows}`, look: 'text' as const, wrap: false }]),
    },
    ...PATHS.map(([who, steps], index) => ({
      at: `${PATH_SPOTS[index]?.column}${PATH_SPOTS[index]?.row}`,
      rows: [[null, { value: who, look: 'label' as const }], ...numbered(steps)],
    })),
    {
      at: `A${FIGURES_ROW}`,
      rows: FIGURES.map(([label, figure, format, unit, more]) => [
        null,
        { value: label, look: 'label' as const },
        { formula: figure, look: 'figure' as const, format },
        { value: unit, look: 'text' as const },
        { formula: more, look: 'formula' as const, wrap: true },
      ]),
    },
  ],
  merges: [`A${17 + DOWN}:E${17 + DOWN}`],
  print: printed({ area: 'A:E' }),
};
