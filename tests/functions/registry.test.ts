import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { argumentName } from '../../src/functions/adapter.ts';
import { callById, findFunction, functions, VERSION } from '../../src/functions/index.ts';
import { isQuantity, isUnit } from '../../src/units/quantity.ts';
import { evaluateLiterals } from './formula-literals.ts';

/** Ids never change once a workbook may hold them: a name that goes from this list breaks somebody's sheet. */
const SHIPPED = [
  'CONVERT',
  'TUBE.BORE',
  'GAS',
  'REFRIGERANT',
  'TUBE.CONDUCTANCE',
  'TUBE.FLOW',
  'PORT.FLOW',
  'VALVE.FLOW',
  'REGIME',
  'SERIES',
  'PARALLEL',
  'RIG.SPEED',
  'RIG.METER',
  'RIG.PROFILE',
  'RIG.GAUGE',
  'RIG.COMPARE',
  'RIG.SWAPS',
  'RIG.FIT',
  'RUN.VOLUME',
  'RUN.TABLE',
  'EVAC.TIME',
  'EVAC.CURVE',
  'EVAC.PROJECT',
  'EVAC.BREAKS',
  'EVAC.NETWORK',
  'PUMP.NEEDED',
  'PUMP.PICK',
  'DRY.TIME',
  'DRY.CURVE',
  'HOLD.RISE',
  'HOLD.READ',
  'LEAK.RATE',
  'RECOVER.TARGET',
  'CHARGE.LINES',
  'CYLINDER.FILL',
  'RECOVER.TIME',
  'RECOVER.CURVE',
  'CHARGE.TIME',
  'CHARGE.CURVE',
  'LABOUR.TABLE',
  'LABOUR.RISK',
  'CREW.PLAN',
  'GEAR.PARETO',
  'GEAR.SWAPS',
  'CAUTIONS',
  'WHY',
  'CHECK',
  'ABOUT',
];

const each = functions.map((fn) => [fn.id, fn] as const);

describe('the registry', () => {
  it('has every function of the catalogue, once, in its order', () => {
    expect(functions.map(({ id }) => id)).toEqual(SHIPPED);
  });

  it.each(each)('%s is described', (id, fn) => {
    expect(id).toMatch(/^[A-Z]+(\.[A-Z]+)?$/u);
    expect(fn.summary).toMatch(/^[A-Z].*\.$/u);
    expect(fn.result.description.length).toBeGreaterThan(3);
    expect(fn.examples.length).toBeGreaterThan(0);
    for (const [key, parameter] of Object.entries(fn.parameters)) {
      expect(key, id).toMatch(/^[a-z][A-Za-z0-9]*$/u);
      expect(parameter.description.length, `${id} ${key}`).toBeGreaterThan(3);
    }
  });

  it.each(each)('%s has units that its quantities know', (id, fn) => {
    for (const [key, { quantity, unit }] of Object.entries(fn.parameters)) {
      if (quantity === undefined) continue;
      expect(isQuantity(quantity) && isUnit(unit ?? '', quantity), `${id} ${key}`).toBe(true);
    }
    const { result } = fn;
    if (result.kind === 'number' && result.quantity !== undefined) {
      expect(isQuantity(result.quantity) && isUnit(result.unit, result.quantity), id).toBe(true);
    }
    for (const { name, quantity, metricUnit, inchUnit } of result.kind === 'table' ? (result.columns ?? []) : []) {
      if (quantity === undefined) continue;
      const known =
        isQuantity(quantity) && isUnit(metricUnit ?? '', quantity) && isUnit(inchUnit ?? metricUnit ?? '', quantity);
      expect(known, `${id} ${name}`).toBe(true);
    }
  });

  it.each(each)('%s has its optional parameters behind the needed ones, and conditions last', (_, fn) => {
    const parameters = Object.entries(fn.parameters);
    const firstOptional = parameters.findIndex(([, parameter]) => parameter.optional);
    if (firstOptional >= 0) expect(parameters.slice(firstOptional).every(([, { optional }]) => optional)).toBe(true);
    const special = parameters.findIndex(([, { kind, repeating }]) => kind === 'conditions' || repeating);
    if (special >= 0) expect(special).toBe(parameters.length - 1);
  });

  const examples = functions.flatMap(({ id, examples }) =>
    examples.map((example) => [example.formula, id, example] as const),
  );
  it.each(examples)('%s works', (formula, id, example) => {
    expect(formula).toContain(`NARROWS.${id}(`);
    expect(example.shows.length).toBeGreaterThan(2);
    const outcome = evaluateLiterals(formula, callById);
    expect(outcome).toMatchObject({ ok: true });
    expect(outcome).not.toHaveProperty('firstFault');
    expect(JSON.stringify(outcome)).not.toContain('"error"');
  });
});

describe('a name', () => {
  it('is found whatever its case, with or without the namespace', () => {
    for (const name of ['TUBE.BORE', 'tube.bore', ' NARROWS.Tube.Bore '])
      expect(findFunction(name)?.id).toBe('TUBE.BORE');
  });

  it.each(['NOPE', '', 'constructor', '__proto__', 'NARROWS.'])(
    'that is none, such as "%s", is an error in words',
    (name) => {
      expect(callById(name, [])).toMatchObject({
        ok: false,
        code: '#N/A',
        message: expect.stringContaining('Close to it: '),
      });
    },
  );

  it('of an argument is read as words', () => {
    expect(argumentName('criticalRatio')).toBe('critical ratio');
  });
});

describe('the version', () => {
  it('is that of the package', () => {
    const text = readFileSync(new URL('../../package.json', import.meta.url), 'utf8');
    expect(VERSION).toBe((JSON.parse(text) as { version: string }).version);
  });
});
