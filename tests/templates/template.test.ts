import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { readXlsx } from 'hucre/xlsx';
import { beforeAll, describe, expect, it } from 'vitest';
import { libraryPart } from '../../src/tables/library/parts.ts';
import type { ModelBlock, ModelCell, ModelSheet, ModelValue, WorkbookModel } from '../../src/workbook/model.ts';
import { type FilledTemplate, fillTemplate } from '../../templates/fill.ts';
import { templateModel } from '../../templates/model.ts';
import { templateRigs } from '../../templates/rigs.ts';
import { scenarioKinds, scenarioUnits } from '../../templates/scenario.ts';

const model: WorkbookModel = templateModel();

function sheet(name: string): ModelSheet {
  const found = model.sheets.find((one) => one.name === name);
  if (found === undefined) throw new Error(`there is no sheet ${name}`);
  return found;
}

const isCell = (given: ModelCell | ModelValue | undefined): given is ModelCell =>
  typeof given === 'object' && given !== null;

interface Told {
  readonly sheet: string;
  readonly cell: ModelCell;
}

/** Every cell of the model with the look that its block gives it. */
function cells(): Told[] {
  const ofBlock = (block: ModelBlock): ModelCell[] =>
    block.rows.flatMap((row) =>
      row.flatMap((given, column) => {
        if (given === undefined) return [];
        const look = block.columns?.[column]?.look ?? block.look;
        const cell = isCell(given) ? given : { value: given };
        return [look === undefined ? cell : { look, ...cell }];
      }),
    );
  return model.sheets.flatMap((one) => [
    ...Object.values(one.cells ?? {}).map((given) => ({
      sheet: one.name,
      cell: isCell(given) ? given : { value: given },
    })),
    ...(one.blocks ?? []).flatMap(ofBlock).map((cell) => ({ sheet: one.name, cell })),
  ]);
}

const formulas = cells().flatMap(({ sheet: name, cell }) =>
  cell.formula === undefined ? [] : [{ name, cell, formula: cell.formula }],
);

describe('the scenario', () => {
  it('has at least 120 units of nine kinds on twelve rigs', () => {
    expect(scenarioUnits.reduce((sum, { count }) => sum + count, 0)).toBeGreaterThanOrEqual(120);
    expect(new Set(scenarioUnits.map(({ kind }) => kind)).size).toBe(9);
    expect(scenarioKinds).toHaveLength(9);
    expect(templateRigs).toHaveLength(12);
  });

  it('gives every unit a rig, and a volume or runs', () => {
    const rigs = new Set(templateRigs.map(({ name }) => name));
    const kinds = new Map(scenarioKinds.map((kind) => [kind.kind, kind]));
    for (const unit of scenarioUnits) {
      expect(rigs, unit.unit).toContain(unit.rig ?? kinds.get(unit.kind)?.rig);
      expect(unit.volume !== undefined || unit.runs.length > 0, unit.unit).toBe(true);
    }
    expect(new Set(scenarioUnits.map(({ unit }) => unit)).size).toBe(scenarioUnits.length);
  });

  it('has units with water and units on long lines, each with what they need', () => {
    const wet = scenarioUnits.filter(({ water = 0 }) => water > 0);
    expect(wet.length).toBeGreaterThanOrEqual(3);
    for (const { heat = 0, unit } of wet) expect(heat, unit).toBeGreaterThan(0);
    const lined = scenarioUnits.filter(({ port }) => port !== undefined);
    expect(lined.length).toBeGreaterThanOrEqual(1);
    for (const { unit, port, componentAt, runs } of lined) {
      const nodes = runs.flatMap(({ from, to }) => [from, to]);
      expect(nodes, unit).toContain(port);
      expect(nodes, unit).toContain(componentAt);
      expect(nodes, unit).not.toContain(undefined);
    }
  });

  it('builds its rigs of library parts, a pump first', () => {
    for (const { parts } of templateRigs) {
      const kinds = parts.map((entry) => libraryPart(typeof entry === 'string' ? entry : entry.part).kind);
      expect(kinds[0]).toBe('pump');
      expect(kinds.slice(1)).not.toContain('pump');
    }
  });
});

describe('the sheets', () => {
  it('stand in the order of the work', () => {
    expect(model.sheets.map(({ name }) => name)).toEqual([
      'Start',
      'Conditions',
      'Parts',
      'Pipe runs',
      'Units',
      'Results',
      'Labour',
      'Risk',
      'Crew',
      'Compare',
      'One rig',
      ...model.sheets.slice(11, -3).map(({ name }) => name),
      'Cautions',
      'Notes',
      'Lists',
    ]);
  });

  it('keep inputs and formulas apart by their looks', () => {
    for (const { cell, name } of formulas) {
      expect(['header', 'figure', 'formula'], `${name}: ${cell.formula}`).toContain(cell.look);
    }
    for (const { cell, sheet: name } of cells()) {
      if (cell.look === 'input') expect(cell.formula, name).toBeUndefined();
    }
  });

  it('offer lists for kinds of part and rigs', () => {
    expect(sheet('Parts').validations?.some(({ title }) => title === 'Kind of part')).toBe(true);
    expect(sheet('Units').validations?.some(({ list }) => list === '=RigNames')).toBe(true);
    expect(sheet('One rig').validations?.some(({ list }) => list === '=RigNames')).toBe(true);
    expect(sheet('Lists').hidden).toBe(true);
  });

  it('freeze the header of every table, set widths, and print on a page of A4 that Letter holds too', () => {
    for (const name of [
      'Conditions',
      'Parts',
      'Pipe runs',
      'Units',
      'Results',
      'Labour',
      'Risk',
      'Crew',
      'Compare',
      'Cautions',
    ]) {
      expect(sheet(name).frozenRows, name).toBeGreaterThan(0);
      expect(sheet(name).print, name).toMatchObject({ paper: 'a4', fitWidth: true });
    }
    for (const one of model.sheets) expect(one.widths?.length, one.name).toBeGreaterThan(0);
  });

  it('show charts where people look rather than read, each with words for those who cannot see it', () => {
    for (const name of ['Results', 'Labour', 'Risk', 'Crew', 'Compare', 'One rig', 'Gear', 'Recovery']) {
      const { charts = [] } = sheet(name);
      expect(charts.length, name).toBeGreaterThan(0);
      for (const { altText } of charts) expect(altText.length).toBeGreaterThan(20);
    }
  });

  it('name the ranges that formulas read', () => {
    const names = model.names?.map(({ name }) => name);
    expect(names).toEqual(
      expect.arrayContaining(['Conditions', 'Parts', 'Runs', 'Units', 'RigNames', 'Rates', 'Factors', 'Crews']),
    );
  });

  it('refer to no spilled range by its first cell', () => {
    for (const { formula } of formulas) expect(formula).not.toMatch(/[A-Z]\d+#/);
  });

  it('call our functions for a project, a comparison, a rig and the cautions', () => {
    const text = formulas.map(({ formula }) => formula).join('\n');
    for (const id of [
      'EVAC.PROJECT',
      'LABOUR.TABLE',
      'LABOUR.RISK',
      'CREW.PLAN',
      'GEAR.PARETO',
      'RIG.COMPARE',
      'RIG.PROFILE',
      'EVAC.CURVE',
      'RIG.GAUGE',
      'RECOVER.TIME',
      'CHARGE.TIME',
      'CAUTIONS',
    ])
      expect(text).toContain(`NARROWS.${id}(`);
  });

  it('say on Start what to do where the functions are missing, and that local codes come first', () => {
    const start = cells()
      .filter(({ sheet: name }) => name === 'Start')
      .map(({ cell }) => String(cell.value ?? ''))
      .join('\n');
    expect(start).toMatch(/lacks the NARROWS functions/);
    expect(start).toMatch(/Local codes/);
  });

  it('record ours, theirs and why on Notes', () => {
    const notes = cells()
      .filter(({ sheet: name }) => name === 'Notes')
      .map(({ cell }) => cell.value);
    expect(notes).toContain('next to nothing');
    expect(notes).toContain('no');
  });
});

type Stored = Map<string, unknown>;

/** Every cell that holds a value in the file, spilled ones included, by sheet and place. */
async function valuesOf(bytes: Uint8Array): Promise<Stored> {
  const found: Stored = new Map();
  for (const { name, rows } of (await readXlsx(bytes)).sheets)
    rows.forEach((row, down) => {
      row.forEach((value, across) => {
        if (value !== null && value !== undefined && value !== '')
          found.set(`${name} row ${down + 1} column ${across + 1}`, value);
      });
    });
  return found;
}

describe('the workbook that is built', () => {
  let first: FilledTemplate;
  let second: FilledTemplate;
  beforeAll(async () => {
    first = await fillTemplate();
    second = await fillTemplate();
  });

  it('has no cell that ends in an error', () => {
    expect(first.faults).toEqual([]);
  });

  it('is the same to the byte when it is built again', () => {
    expect(Buffer.compare(Buffer.from(first.bytes), Buffer.from(second.bytes))).toBe(0);
  });

  it('adds up the same units, hours and litres as the scenario and its own rows', async () => {
    const stored = await valuesOf(first.bytes);
    const at = (row: number, column: number) => Number(stored.get(`Results row ${row} column ${column}`));
    const rows = scenarioUnits.map((_, index) => 11 + index);
    const count = (row: number) => at(row, 2);
    expect(at(4, 2)).toBe(scenarioUnits.reduce((sum, unit) => sum + unit.count, 0));
    const [DRY, VERDICT, DRY_OUT, TOTAL, FAR] = [6, 9, 10, 11, 15];
    const hours = (column: number) => rows.reduce((sum, row) => sum + count(row) * at(row, column), 0) / 60;
    expect(at(5, 2)).toBeCloseTo(hours(TOTAL), 6);
    expect(at(6, 2)).toBeCloseTo(Math.max(...rows.map((row) => at(row, TOTAL))), 9);
    expect(at(9, 2)).toBeCloseTo(hours(TOTAL) - hours(DRY), 6);
    expect(stored.get('Start row 15 column 3')).toBe(at(5, 2));
    rows.forEach((row, index) => {
      const { water = 0, port, unit } = scenarioUnits[index] ?? {};
      const verdict = String(stored.get(`Results row ${row} column ${VERDICT}`));
      if (water > 0) {
        expect(verdict, unit).toMatch(/dry after/);
        expect(at(row, DRY_OUT), unit).toBeGreaterThan(at(row, DRY));
        expect(at(row, TOTAL), unit).toBeGreaterThanOrEqual(at(row, DRY_OUT));
      } else expect(at(row, DRY_OUT), unit).toBe(0);
      if (port !== undefined) expect(at(row, TOTAL), unit).toBeGreaterThanOrEqual(at(row, FAR));
      if (water === 0 && port === undefined) {
        expect(verdict, unit).toBe('reaches target');
        expect(at(row, TOTAL), unit).toBe(at(row, DRY));
      }
    });
  });

  it('works out the volume of a unit as done by hand', async () => {
    const stored = await valuesOf(first.bytes);
    // WS25-0: 6 m of 1/4 in coil (0.190 in bore) and 6 m of 3/8 in coil (0.311 in bore), ASTM B280, and 2.1 L of coils
    const litres = (Math.PI / 4) * ((0.19 * 0.0254) ** 2 + (0.311 * 0.0254) ** 2) * 6 * 1000 + 2.1;
    expect(stored.get('Results row 11 column 4')).toBeCloseTo(litres, 6);
  });

  it('is the one that ships: run `npm run template` when this fails', async () => {
    const path = fileURLToPath(new URL('../../templates/narrows-template.xlsx', import.meta.url));
    const shipped = await valuesOf(readFileSync(path));
    const built = await valuesOf(first.bytes);
    expect([...shipped.keys()].sort()).toEqual([...built.keys()].sort());
    for (const [place, value] of built) {
      const kept = shipped.get(place);
      if (typeof value === 'number' && typeof kept === 'number')
        expect(Math.abs(kept - value), place).toBeLessThanOrEqual(1e-6 * Math.abs(value) + 1e-12);
      else expect(kept, place).toBe(value);
    }
  });
});
