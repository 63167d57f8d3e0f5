import { argumentName } from '../src/functions/adapter.ts';
import type { CellFunction, Parameter, Result } from '../src/functions/define.ts';
import { NAMESPACE } from '../src/functions/index.ts';
import { CONDITIONS } from '../src/tables/condition-list.ts';
import { CREWS_COLUMNS } from '../src/tables/crews.ts';
import { FACTORS_COLUMNS } from '../src/tables/factors.ts';
import { LOG_COLUMNS } from '../src/tables/log.ts';
import { PARTS_COLUMNS } from '../src/tables/parts-columns.ts';
import { PLAN_COLUMNS } from '../src/tables/plan.ts';
import { PORTS_COLUMNS } from '../src/tables/ports.ts';
import { RATES_COLUMNS } from '../src/tables/rates.ts';
import { RUNS_COLUMNS } from '../src/tables/runs.ts';
import type { Columns } from '../src/tables/table.ts';
import { UNITS_COLUMNS } from '../src/tables/units.ts';
import { UNITS } from '../src/units/table.ts';

/** Text within a table cell of a page. */
function cell(text: string): string {
  return text.replaceAll('|', '\\|').replaceAll('\n', ' ');
}

function code(formula: string): string {
  return ['```', formula, '```'].join('\n');
}

function table(header: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]) => `| ${cells.map(cell).join(' | ')} |`;
  return [line(header), line(header.map(() => '---')), ...rows.map(line)].join('\n');
}

function list(title: string, lines: readonly string[] | undefined): readonly string[] {
  if (lines === undefined || lines.length === 0) return [];
  return [`## ${title}`, lines.map((line) => `- ${line}`).join('\n')];
}

/** `=NARROWS.TUBE.BORE(size, [standard])` */
export function signature(fn: CellFunction): string {
  const names = Object.entries(fn.parameters).map(([key, { optional, repeating }]) => {
    const name = `${argumentName(key)}${repeating ? ', …' : ''}`;
    return optional ? `[${name}]` : name;
  });
  return `=${NAMESPACE}.${fn.id}(${names.join(', ')})`;
}

function kindOf({ kind, unit, choices, table: name }: Parameter<unknown>): string {
  switch (kind) {
    case 'quantity':
      return `number in ${unit}, or text with a unit`;
    case 'list':
      return unit === undefined || unit === ''
        ? 'number or range'
        : `number in ${unit}, text with a unit, or a range of them`;
    case 'number':
      return 'number';
    case 'choice':
      return `one of: ${(choices ?? []).join(', ')}`;
    case 'table':
      return `[${name} table](tables.md#${name})`;
    case 'conditions':
      return '[conditions](tables.md#conditions)';
    case 'any':
      return 'any cell or range';
    default:
      return kind;
  }
}

function resultOf(result: Result): string {
  switch (result.kind) {
    case 'number':
      return `A number, ${result.description}${result.unit === '' ? '' : ` (${result.unit})`}.`;
    case 'text':
      return `Text: ${result.description}.`;
    case 'table':
      return `A table that spills: ${result.description}.`;
  }
}

function resultColumns(result: Result): readonly string[] {
  if (result.kind !== 'table' || result.columns === undefined) return [];
  const rows = result.columns.map(({ name, metricUnit = '', inchUnit = metricUnit }) => [name, metricUnit, inchUnit]);
  return [table(['Column', 'Metric', 'Inch'], rows)];
}

function page(fn: CellFunction): string {
  const parameters = Object.entries(fn.parameters);
  const rows = parameters.map(([key, parameter]) => [
    argumentName(key),
    parameter.description,
    kindOf(parameter),
    parameter.optional ? 'yes' : '',
  ]);
  const examples = fn.examples.flatMap(({ formula, shows }) => [code(formula), `Shows: ${shows}.`]);
  return `${[
    `# ${fn.id}`,
    fn.summary,
    code(signature(fn)),
    ...(rows.length === 0
      ? ['It takes no arguments.']
      : [table(['Argument', 'What it is', 'How it is given', 'Optional'], rows)]),
    '## Result',
    resultOf(fn.result),
    ...resultColumns(fn.result),
    '## Examples',
    ...examples,
    ...list('Notes', fn.notes),
    ...list('Sources', fn.sources),
    `Group: ${fn.group}. [All functions](README.md)`,
  ].join('\n\n')}\n`;
}

function index(functions: readonly CellFunction[]): string {
  const groups = [...new Set(functions.map(({ group }) => group))];
  const sections = groups.flatMap((group) => [
    `## ${group}`,
    table(
      ['Function', 'What it gives'],
      functions.filter((fn) => fn.group === group).map((fn) => [`[${fn.id}](${fn.id}.md)`, fn.summary]),
    ),
  ]);
  return `${[
    '# Functions',
    `Written by \`npm run docs\` from the declarations of the functions. In a sheet each name follows \`${NAMESPACE}.\`. Square brackets mark what may be left out. What tables hold is on [its own page](tables.md), and so are [the units](units.md).`,
    ...sections,
  ].join('\n\n')}\n`;
}

function columnTable(columns: Columns): string {
  const rows = Object.values(columns).map(({ header, synonyms = [], needed, unit = '', description }) => [
    header,
    needed === true ? 'yes' : '',
    unit,
    description,
    synonyms.join(', '),
  ]);
  return table(['Header', 'Needed', 'Unit', 'What it is', 'Also understood'], rows);
}

function tablesPage(): string {
  const conditions = Object.values(CONDITIONS).map((condition) => {
    const { name, standard, description } = condition;
    const unit = 'unit' in condition ? condition.unit : '';
    const synonyms = 'synonyms' in condition ? condition.synonyms : [];
    return [name, unit, standard === undefined ? '' : String(standard), description, synonyms.join(', ')];
  });
  return `${[
    '# Tables',
    'A table is a range whose first row is headers. Columns come in any order and unknown ones are ignored; case, spaces and punctuation of a header do not matter. A header may name its unit: `Bore (in)`, `Length [ft]`, `Speed, cfm`. A cell may carry its own unit as text. Blank rows are skipped.',
    '## parts',
    'One row a part, in order from the pump to the system. Each rig begins with its pump. Columns that the sheet Parts of the template does not have, `Speed table` and `Gas ballast` among them, may be inserted anywhere within its table.',
    columnTable(PARTS_COLUMNS),
    '## runs',
    'One row a length of pipe (a size or a bore, and a length) or a component (a volume).',
    columnTable(RUNS_COLUMNS),
    '## ports',
    'One row a rig of a network of lines.',
    columnTable(PORTS_COLUMNS),
    '## plan',
    'One row a pull and the break after it.',
    columnTable(PLAN_COLUMNS),
    '## units',
    'One row a kind of unit.',
    columnTable(UNITS_COLUMNS),
    '## rates',
    'One row a role.',
    columnTable(RATES_COLUMNS),
    '## crews',
    'One row a crew.',
    columnTable(CREWS_COLUMNS),
    '## factors',
    'One row an input of an estimate that may be off: three percentiles, or a width.',
    columnTable(FACTORS_COLUMNS),
    '## log',
    'One row a reading.',
    columnTable(LOG_COLUMNS),
    '## conditions',
    'A range of two or three columns without headers: name, value, and the unit where it is not the default. A blank value is the default.',
    table(['Name', 'Unit', 'Default', 'What it is', 'Also understood'], conditions),
  ].join('\n\n')}\n`;
}

function unitsPage(): string {
  const sections = Object.entries(UNITS).flatMap(([quantity, units]) => [
    `## ${quantity}`,
    table(
      ['Unit', 'Also written', 'SI value'],
      units.map((unit) => {
        const [first = '', ...others] = unit.names;
        const offset = 'offset' in unit && unit.offset !== undefined ? ` + ${Number(unit.offset.toPrecision(12))}` : '';
        return [first, [...new Set(others)].join(', '), `value x ${Number(unit.factor.toPrecision(12))}${offset}`];
      }),
    ),
  ]);
  return `${[
    '# Units',
    'Text may carry any unit of its quantity: `3/8 in`, `5 ft 6 in`, `500 micron`, `-0.95 bar g`, `25 inHg vac`, `1 h 30 min`. A number uses a decimal point; a decimal comma is taken where it can mean nothing else. Gauge pressures and vacuum are counted from 101,325 Pa.',
    ...sections,
  ].join('\n\n')}\n`;
}

/** Every page of the reference by its file name. */
export function referencePages(functions: readonly CellFunction[]): ReadonlyMap<string, string> {
  return new Map([
    ['README.md', index(functions)],
    ['tables.md', tablesPage()],
    ['units.md', unitsPage()],
    ...functions.map((fn) => [`${fn.id}.md`, page(fn)] as const),
  ]);
}
