import { cautionSteps, cautionsFor } from '../../tables/library/cautions.ts';
import type { SpillColumn } from '../../tables/spill.ts';
import { defineFunction } from '../define.ts';
import { optional, text } from '../parameters.ts';

const COLUMNS: readonly SpillColumn[] = [
  { name: 'Step' },
  { name: 'Severity' },
  { name: 'Caution' },
  { name: 'Why' },
  { name: 'Source' },
];

export const cautions = defineFunction({
  id: 'CAUTIONS',
  group: 'Words',
  summary: 'Lists the caution notes for a step of the work; local codes and licensed practice come first.',
  parameters: {
    step: text(`step of the work: ${cautionSteps.join(', ')}`),
    refrigerant: optional(
      text('refrigerant such as R-32, or safety class such as A2L; omitted: notes for all of them'),
    ),
  },
  result: { kind: 'table', columns: COLUMNS, description: 'one row for each caution' },
  examples: [
    {
      formula: '=NARROWS.CAUTIONS("evacuation","R-32")',
      shows: 'the notes for evacuating a system of an A2L refrigerant',
    },
  ],
  notes: ['The notes are reminders. They do not take the place of training, licences, instructions or local codes.'],
  sources: ['the source of each note stands in its row'],
  body: ({ step, refrigerant }) => ({
    columns: COLUMNS,
    rows: cautionsFor(step, refrigerant).map((note) => [note.step, note.severity, note.text, note.why, note.source]),
  }),
});
