import type { ModelSheet, WorkbookModel } from '../src/workbook/model.ts';
import { rangeOf } from './layout.ts';
import { withReadableNote } from './readable.ts';
import { type TemplateRig, templateRigs } from './rigs.ts';
import type { ScenarioUnit } from './scenario.ts';
import { compareSheet } from './sheets/compare.ts';
import { listsSheet } from './sheets/lists.ts';
import { oneRigSheet } from './sheets/one-rig.ts';
import { partsTable } from './sheets/parts.ts';
import { resultsSheet } from './sheets/results.ts';
import { sizingSheet } from './sheets/sizing.ts';
import { swapsSheet } from './sheets/swaps.ts';
import { unitsTable } from './sheets/units.ts';

/** Rigs of the template by the letters that their names begin with. */
function rigsOf(letters: string): readonly TemplateRig[] {
  return templateRigs.filter(({ name }) => letters.includes(name.slice(0, 1)));
}

function partsOf(letters: string) {
  const rigs = rigsOf(letters);
  const { sheet, spot, rigNames } = partsTable(rigs);
  const names = [
    { name: 'Parts', range: rangeOf(spot), comment: 'The rigs, one row a part' },
    { name: 'RigNames', range: rigNames, comment: 'Names of the rigs, for lists' },
  ];
  return { rigs, sheet, names };
}

function book(title: string, description: string, sheets: readonly ModelSheet[], names: WorkbookModel['names']) {
  return {
    title,
    description,
    sheets: [...sheets, listsSheet].map(withReadableNote),
    names: names ?? [],
  } satisfies WorkbookModel;
}

/** Invented: a row of shops. */
const SHOPS: readonly ScenarioUnit[] = [
  { unit: 'Shop 1', kind: 'Wall split 2.5 kW', where: 'Bakery', count: 2, volume: 2.6, runs: [] },
  { unit: 'Shop 2', kind: 'Wall split 3.5 kW', where: 'Florist', count: 1, volume: 3.4, runs: [] },
  {
    unit: 'Shop 3',
    kind: 'Wall split 2.5 kW',
    where: 'Shoe repair',
    count: 1,
    volume: 2.9,
    rig: 'A core in, small hose',
    runs: [],
  },
  { unit: 'Shop 4', kind: 'Cassette 5 kW', where: 'Café', count: 3, volume: 5.2, runs: [] },
];

/** So many units, on which rigs: how many hours, and which swap saves the most. */
function estimator(): WorkbookModel {
  const { rigs, sheet, names } = partsOf('ABF');
  const { sheet: units, spot } = unitsTable(SHOPS, rigs);
  const results = resultsSheet(spot, SHOPS.length, '=NARROWS.EVAC.PROJECT(Units,Parts)');
  return book(
    'Example for the estimator',
    'Hours of a small job (invented)',
    [results, swapsSheet('=NARROWS.GEAR.SWAPS(Units,Parts)'), units, sheet],
    [{ name: 'Units', range: rangeOf(spot), comment: 'Groups of equal units' }, ...names],
  );
}

/** Invented: litres inside the chiller. */
const CHILLER = 350;

/** Which part costs the most, which pump the time needs, what to change. */
function engineer(): WorkbookModel {
  const { sheet, names } = partsOf('FHL');
  const chiller = templateRigs.find(({ name }) => name.startsWith('L'));
  const sheets = [sizingSheet(chiller?.name ?? '', CHILLER), oneRigSheet(chiller, null, CHILLER), sheet];
  return book('Example for the project engineer', 'Pump and rig of one chiller (invented)', sheets, names);
}

/** One part changed at a time. */
function trainee(): WorkbookModel {
  const { rigs, sheet, names } = partsOf('ABF');
  const about =
    'A and B differ by the core alone, B and F by the hose. Change one part on Parts and read off what it does.';
  const compare = compareSheet(rigs.length, '=NARROWS.RIG.COMPARE(Parts,B4,B5:D5)', about);
  return book('Example for the trainee', 'Three rigs on one system (invented)', [compare, sheet], names);
}

/** Small examples, one a user, by the name of their file. */
export const exampleModels: Readonly<Record<string, () => WorkbookModel>> = {
  'example-estimator': estimator,
  'example-engineer': engineer,
  'example-trainee': trainee,
};
