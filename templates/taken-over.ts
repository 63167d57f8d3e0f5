import type { ModelCell } from '../src/workbook/model.ts';

/** Names that a sheet with conditions of its own takes over from the sheet Conditions, so that the rest stays one. */
export const TAKEN_OVER = [
  'Gas',
  'Temperature',
  'Start pressure',
  'Target pressure',
  'Ambient',
  'Ambient pressure',
  'Leak',
  'Outgassing',
  'Report units',
] as const;

function takenOver(name: string, column: 2 | 3): string {
  const found = `VLOOKUP("${name}",Conditions,${column},FALSE)`;
  return `=IFERROR(IF(${found}="","",${found}),"")`;
}

/** Rows of name, value and unit: the sheet's own as inputs, the others by formula. */
export function conditionRows(own: readonly (readonly [name: string, value: number, unit: string])[]): ModelCell[][] {
  return [
    ...own.map(([name, value, unit]): ModelCell[] => [
      { value: name, look: 'label' },
      { value, look: 'input', format: '0.0##' },
      { value: unit, look: 'text' },
    ]),
    ...TAKEN_OVER.map((name): ModelCell[] => [
      { value: name, look: 'label' },
      { formula: takenOver(name, 2), look: 'formula', align: 'right' },
      { formula: takenOver(name, 3), look: 'formula' },
    ]),
  ];
}
