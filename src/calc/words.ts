/** Words for the errors of ordinary spreadsheet functions and of the guards; ours bring their own. */

export const plainWords: Readonly<Record<string, string>> = {
  '#VALUE!': 'A value of the wrong kind, such as text where a number is wanted, or a range where a single cell is.',
  '#N/A': 'No match, or a function was given too few or too many arguments.',
  '#NUM!': 'A number that cannot be worked out, too large or out of range.',
  '#DIV/0!': 'A division by zero or by an empty cell.',
  '#REF!': 'A reference to cells that are not there.',
  '#NAME?': 'A name that is not known, or a formula that cannot be read.',
  '#NULL!': 'Two ranges that do not meet.',
  '#SPILL!': 'The result needs more cells than are free: clear the cells beside and below the formula.',
  '#CALC!': 'The formula has no result, such as a filter that leaves nothing.',
  '#ERROR!': 'The formula cannot be read: check brackets, commas and quotes.',
};

export const wordsFor = (code: string): string => plainWords[code] ?? 'The formula ends in an error.';

export const cycleWords = (cells: readonly string[]): string =>
  `Circular reference: ${cells.join(' → ')}. These cells wait for each other, so none of them has a value. Break the circle in one of them.`;

export const spillWords = (rows: number, columns: number): string =>
  `The result needs ${rows} × ${columns} free cells, and some are not free or lie outside the sheet: clear them or move the formula.`;

export const spillMergedWords = (rows: number, columns: number): string =>
  `The result needs ${rows} × ${columns} free cells, and there are merged cells among them: unmerge those or move the formula.`;

export const noSpillWords = (cell: string): string =>
  `${cell} holds no formula, so there is no spilled range behind ${cell}#. Name the range itself, such as ${cell}:C9.`;

export const blockedSpillWords = (cell: string): string =>
  `${cell}# has no cells: the result of ${cell} has no room to spill. Clear the cells beside and below ${cell}.`;

export const semicolonWords =
  'There is a semicolon in the formula: arguments are separated by commas, and decimals have a point, as in =ROUND(2.5,0).';
export const twoTextsWords =
  'A text in quotes stands right behind another one: put a comma between them, or & to join them.';
export const tooDeepWords = 'The formula is nested too deeply to be worked out: split it over several cells.';

export const tooLongWords = (length: number, limit: number): string =>
  `The formula has ${length} characters; at most ${limit} can be worked out. Put its tables into cells.`;

export const tooManyCellsWords = (cells: number, limit: number): string =>
  `The result would have ${cells} cells; at most ${limit} can be worked out. Ask for fewer rows or columns.`;

export const tooMuchWorkWords = (name: string, steps: number, limit: number): string =>
  `${name} would take ${steps} steps here; at most ${limit} can be worked out. Give it smaller numbers or tables.`;

export const TOO_LARGE_MULTIPLE = 'The least common multiple has more digits than a cell can hold.';

export const tooManyOperatorsWords = (count: number, limit: number): string =>
  `The formula strings ${count} signs such as + together; at most ${limit} can be worked out. Use SUM, or split it over several cells.`;

export const noConstantWords = (item: string): string =>
  `${item} cannot stand between { and }: only numbers, TRUE, FALSE and text in quotes can. Use VSTACK and HSTACK to build a table from cells and results.`;

export const unknownSheetWords = (name: string): string => `There is no sheet called ${name}.`;

export const brokeDownWords = (detail: string): string =>
  `The formula could not be worked out (${detail}). Write it in smaller steps.`;

export const unknownFunctionWords = (name: string, meant?: string): string =>
  meant === undefined
    ? `There is no function called ${name}. Ours are on the Functions page of the pane; \`narrows list\` prints them.`
    : `There is no function called ${name}. Ours is ${meant}.`;

export const bareFunctionWords = (name: string): string =>
  `${name} is a function: it needs brackets, as in ${name}(…).`;

export const unknownNameWords = (name: string): string =>
  `${name} is neither a function, nor a defined name, nor a cell of the sheet. Text needs quotes: "${name}".`;

export const fromCellWords = (cell: string, code: string, words: string): string => `${cell} holds ${code}: ${words}`;

export const UNEQUAL_ARRAYS = 'The ranges are not of the same size: give each as many rows and columns as the first.';

export const UNMATCHED_CELL =
  'The two ranges are not of the same size: this cell of the one has none beside it in the other.';
