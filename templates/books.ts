import type { WorkbookModel } from '../src/workbook/model.ts';
import { emptied } from './empty.ts';
import { exampleModels } from './examples.ts';
import { templateModel } from './model.ts';

/** Every workbook that ships, by the name of its file without .xlsx; the template first. */
export const books: Readonly<Record<string, () => WorkbookModel>> = {
  'narrows-template': templateModel,
  'narrows-empty': () => emptied(templateModel()),
  ...exampleModels,
};
