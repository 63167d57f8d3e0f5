import { gasNames } from '../../src/engine/gas/gas.ts';
import { refrigerantClasses } from '../../src/tables/library/cautions.ts';
import { libraryParts } from '../../src/tables/library/parts.ts';
import { tubeSizes, tubeStandards } from '../../src/tables/library/tube-sizes.ts';
import type { ModelSheet } from '../../src/workbook/model.ts';
import { letter } from '../layout.ts';

/** Choices for the lists that cells open; a hidden sheet, because a list typed into a rule may hold 255 characters only. */
const CHOICES = {
  kinds: ['pump', 'port', 'hose', 'tube', 'core', 'depressor', 'manifold', 'valve', 'filter'],
  sizes: [...new Set(tubeSizes.map(({ label }) => label))],
  standards: tubeStandards,
  refrigerants: [...refrigerantClasses.keys()],
  gases: gasNames,
  parts: libraryParts.map(({ name }) => name),
} as const satisfies Record<string, readonly string[]>;

type Choice = keyof typeof CHOICES;
const names = Object.keys(CHOICES) as Choice[];
const deepest = Math.max(...names.map((name) => CHOICES[name].length));

/** The range that lists a choice, for a validation rule. */
export function choice(name: Choice): string {
  const column = letter(names.indexOf(name));
  return `=Lists!$${column}$2:$${column}$${CHOICES[name].length + 1}`;
}

export const listsSheet: ModelSheet = {
  name: 'Lists',
  hidden: true,
  widths: names.map((name) => (name === 'parts' ? 36 : 20)),
  blocks: [
    { at: 'A1', rows: [names], look: 'header' },
    {
      at: 'A2',
      rows: Array.from({ length: deepest }, (_, row) => names.map((name) => CHOICES[name][row])),
      look: 'text',
    },
  ],
};
