import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { convert, fromSI, fromUnit, quantities, readQuantity, toSI } from '../../src/units/quantity.ts';
import { type Quantity, UNITS } from '../../src/units/table.ts';
import { issueOf } from '../issue-of.ts';

/** Inches and feet are exact by definition; the expected values are arithmetic done here. */
const IN = 0.0254;
const FT = 0.3048;

describe('amounts as people write them', () => {
  const lengths: readonly (readonly [string, number])[] = [
    ['3/8 in', 0.375 * IN],
    ['3/8"', 0.375 * IN],
    ['1 1/8 in', 1.125 * IN],
    ['1-1/8 in', 1.125 * IN],
    ['1⅛″', 1.125 * IN],
    ['½ in', 0.5 * IN],
    ['5 ft', 5 * FT],
    ['5 ft 6 in', 5.5 * FT],
    ['5\'6"', 5.5 * FT],
    ['5\' 6 1/2"', 5 * FT + 6.5 * IN],
    ['4.8 mm', 0.0048],
    ['4,8 mm', 0.0048],
    ['1e-3 m', 0.001],
    ['.5 m', 0.5],
    ['1,000,000 mm', 1000],
    ['12 µm', 12e-6],
    ['-2 ft 6 in', -2.5 * FT],
    ['7 Inches', 7 * IN],
    ['0,500 m', 0.5],
    ['1,234.5 mm', 1.2345],
  ];
  it.each(lengths)('reads the length %s', (text, metres) => {
    expect(toSI(text, 'length', 'm', 'length')).toBeCloseTo(metres, 12);
  });

  const pressures: readonly (readonly [string, number])[] = [
    ['500 micron', 66.6611937075],
    ['1e-3 mbar', 0.1],
    ['-0.95 bar g', 101325 - 95000],
    ['-0.95 barg', 101325 - 95000],
    ['−0.95 bar(g)', 101325 - 95000],
    ['0 psig', 101325],
    ['0 psi gauge', 101325],
    ['100 kPa abs', 100000],
    ['100 kPa a', 100000],
    ['5 kPa g', 106325],
    ['25 inHg vac', 101325 - 25 * 3386.388640341],
    ['-25 inHg g', 101325 - 25 * 3386.388640341],
    ['80 kPa vacuum', 21325],
    ['1 Torr', 101325 / 760],
    ['2 MPa', 2e6],
    ['2 mPa', 2e-3],
  ];
  it.each(pressures)('reads the pressure %s', (text, pascal) => {
    expect(toSI(text, 'pressure', 'Pa', 'pressure') / pascal).toBeCloseTo(1, 12);
  });

  const others: readonly (readonly [string, Quantity, number])[] = [
    ['4 cfm', 'volume flow', 4 * 0.0004719474432],
    ['4 CFM', 'volume flow', 4 * 0.0004719474432],
    ['7,2 m³/h', 'volume flow', 0.002],
    ['60 l/min', 'volume flow', 0.001],
    ['1 h 30 min', 'time', 5400],
    ['1h30min', 'time', 5400],
    ['1:30', 'time', 5400],
    ['0:00:30', 'time', 30],
    ['2 d', 'time', 172800],
    ['20 °C', 'temperature', 293.15],
    ['68 °F', 'temperature', 293.15],
    ['300 K', 'temperature', 300],
    ['1 lb 8 oz', 'mass', 1.5 * 0.45359237],
    ['10 Pa·m³/s', 'throughput', 10],
    ['10 Pa m^3/s', 'throughput', 10],
    ['10 mbar·l/s', 'throughput', 1],
    ['1 sccm', 'throughput', 0.00168875],
    ['5 dm³/(s·bar)', 'sonic conductance', 5e-8],
    ['5 L/(s bar)', 'sonic conductance', 5e-8],
    ['80 %', 'fraction', 0.8],
  ];
  it.each(others)('reads %s as a %s', (text, quantity, si) => {
    expect(toSI(text, quantity, UNITS[quantity][0].names[0] ?? '', 'x')).toBeCloseTo(si, 10);
  });

  it.each(['1,500 micron', '1.2.3 m', 'five', '', '1,2,3', '1.500,5'])(
    'refuses %s, which is no number or two',
    (text) => {
      expect(issueOf(() => toSI(text, 'pressure', 'Pa', 'pressure'))?.kind).toBe('not-a-number');
    },
  );

  it.each([Number.NaN, Number.POSITIVE_INFINITY, true, null, undefined, {}, []])('refuses %s as a number', (value) => {
    expect(issueOf(() => toSI(value, 'pressure', 'Pa', 'pressure'))?.kind).toBe('not-a-number');
  });

  it('lists the units of the quantity when it does not know one', () => {
    const issue = issueOf(() => toSI('5 furlong', 'length', 'm', 'length'));
    expect(issue).toMatchObject({ kind: 'unit', argument: 'length', unit: 'furlong', quantity: 'length' });
    expect(issue?.kind === 'unit' && issue.known).toContain('ft');
  });

  it('does not take mpa for either the mega- or the millipascal', () => {
    expect(issueOf(() => toSI('2 mpa', 'pressure', 'Pa', 'p'))?.kind).toBe('unit');
  });

  it.each(['constructor', '__proto__', 'toString', 'hasOwnProperty'])('does not take %s for a unit', (name) => {
    expect(issueOf(() => toSI(`1 ${name}`, 'length', 'm', 'length'))?.kind).toBe('unit');
  });

  it('refuses a bare fraction where millimetres are the default, since inches are meant', () => {
    expect(issueOf(() => toSI('3/8', 'length', 'mm', 'bore'))?.kind).toBe('wrong');
    expect(toSI('3/8', 'length', 'in', 'bore')).toBeCloseTo(0.375 * IN, 12);
  });

  it('keeps the unit that somebody wrote, for the words of a fault', () => {
    expect(readQuantity('500 micron', 'pressure', 'Pa', 'p')).toMatchObject({ value: 500, unit: 'micron' });
    expect(readQuantity(12, 'length', 'mm', 'bore')).toEqual({ si: 0.012, value: 12, unit: 'mm' });
  });
});

describe('conversion', () => {
  it('gives back what it was given, for every unit', () => {
    for (const quantity of quantities) {
      for (const unit of UNITS[quantity].flatMap(({ names }) => names)) {
        fc.assert(
          fc.property(fc.double({ min: 1e-3, max: 1e6, noNaN: true }), (value) => {
            const back = fromSI(fromUnit(value, unit, quantity), unit, quantity);
            // gauge and vacuum units lose digits against the standard atmosphere
            return (
              Math.abs(back - value) <= 1e-9 * Math.max(value, 101325 / Math.abs(fromUnit(1, unit, quantity) || 1))
            );
          }),
          { numRuns: 20 },
        );
      }
    }
  });

  it('gives no unit name to two units of one quantity', () => {
    for (const quantity of quantities) {
      const names = UNITS[quantity].flatMap((unit) => [...new Set(unit.names)]);
      expect(names.length, quantity).toBe(new Set(names).size);
    }
  });

  it('gives temperatures and gauge pressures without the noise of their zeros', () => {
    expect(convert(20, 'C', 'F')).toBe(68);
    expect(convert(68, 'F', 'C')).toBe(20);
    expect(convert(-40, 'F', 'C')).toBe(-40);
    expect(convert(0, 'C', 'K')).toBe(273.15);
    expect(convert(1, 'bar g', 'bar')).toBe(2.01325);
    expect(convert(0.1, 'bar g', 'mbar g')).toBe(100);
    expect(convert(101325, 'Pa', 'psi g')).toBe(0);
    expect(convert(1e-7, 'Pa', 'micron')).toBeCloseTo(1e-7 / 0.133322387415, 20);
  });

  it('knows a unit by the signs that keyboards have for it', () => {
    for (const [sign, plain] of [
      ['µm', 'um'],
      ['μm', 'um'],
      ['m²', 'm2'],
      ['m³/h', 'm3/h'],
      ['°F', 'F'],
      ['”', 'in'],
    ] as const)
      expect(convert(2, sign, plain), sign).toBe(2);
  });

  it('refuses units of different quantities, and units that nothing knows', () => {
    expect(issueOf(() => convert(1, 'ft', 'micron'))?.kind).toBe('unit');
    expect(issueOf(() => convert(1, 'cubit', 'm'))).toMatchObject({ kind: 'unknown', value: 'cubit' });
    expect(issueOf(() => convert(1, 'm', 'cubit'))).toMatchObject({ kind: 'unknown', value: 'cubit' });
  });

  it('knows no vacuum below zero pressure and no temperature below absolute zero', () => {
    expect(issueOf(() => convert(35, 'inHg vac', 'Pa'))?.kind).toBe('limit');
    expect(issueOf(() => convert(-300, 'C', 'K'))?.kind).toBe('limit');
  });
});
