import { describe, expect, it } from 'vitest';
import type { Cell } from '../../src/tables/cells.ts';
import { readParts } from '../../src/tables/rigs.ts';
import { MOST_PAIRS, readSpeedPairs } from '../../src/tables/speed-table.ts';
import { allFaults, faultOf } from './faults.ts';

const HOUR = 3600;
const CURVE = '1 bar 4 m3/h; 1 mbar 3.6 m3/h; 0.1 mbar 2 m3/h; 0.02 mbar 0 m3/h';
/** The same in SI: 1 bar = 1e5 Pa, 1 m3/h = 1/3600 m3/s. */
const POINTS = [
  [2, 0],
  [10, 2 / HOUR],
  [100, 3.6 / HOUR],
  [1e5, 4 / HOUR],
] as const;

function expectPoints(text: string, points: readonly (readonly [number, number])[] = POINTS): void {
  const read = readSpeedPairs(text);
  expect(read).toHaveLength(points.length);
  read.forEach(([pressure, speed], i) => {
    const [wantedPressure, wantedSpeed] = points[i] ?? [0, 0];
    expect(pressure / wantedPressure).toBeCloseTo(1, 12);
    expect(speed).toBeCloseTo(wantedSpeed, 15);
  });
}

describe('the text of a speed table', () => {
  it('is pairs of pressure and speed, by rising pressure whatever their order', () => {
    expectPoints(CURVE);
    expectPoints('0.1 mbar 2 m3/h; 0.02 mbar 0 m3/h; 1 bar 4 m3/h; 1 mbar 3.6 m3/h');
  });

  it('may have lines in place of semicolons, and a divider between pressure and speed', () => {
    expectPoints('1 bar 4 m3/h\n1 mbar 3.6 m3/h\r\n0.1 mbar 2 m3/h;\n\n0.02 mbar 0 m3/h;');
    expectPoints('1 bar: 4 m3/h; 1 mbar = 3.6 m3/h; 0.1 mbar, 2 m3/h; 0.02mbar 0m3/h');
  });

  it('reads amounts as all others: decimal commas, any unit of the quantity, units of two words', () => {
    expectPoints('1 bar 4 m3/h; 1 mbar 3,6 m³/h; 0,1 mbar 2 m^3/h; 0,02 mbar 0');
    // 1 ft3 = 0.028316846592 m3, 1 mm of mercury = 133.322387415 Pa, 0 psi g = 101325 Pa (NIST SP 811, definitions)
    expectPoints('0 psi g 3 cfm; 200 micron abs 2 cu ft/min', [
      [0.2 * 133.322387415, (2 * 0.028316846592) / 60],
      [101325, (3 * 0.028316846592) / 60],
    ]);
  });

  it.each([
    ['a word', 'fast', /"fast", which is not a pressure and a speed/],
    ['a number alone', '4', /"4", which is not/],
    ['nothing but a semicolon', ';', /";", which is not/],
    ['pairs that are parted by commas', '1 bar 4 m3/h, 1 mbar 3 m3/h', /is not a pressure and a speed/],
    ['a unit that is no speed', '1 bar 4 kg; 1 mbar 3 m3/h', /"1 bar 4 kg", which is not/],
    ['a number with two points', '1.5.2 bar 4 m3/h; 1 mbar 3 m3/h', /"1.5.2 bar 4 m3\/h"/],
    ['no units', '1000 4; 1 2', /"1000 4", in which a number has no unit/],
    ['a pressure without its unit', '1000 4 m3/h; 1 mbar 2 m3/h', /"1000 4 m3\/h", in which a number has no unit/],
    ['a speed without its unit', '1 bar 4; 1 mbar 2 m3/h', /"1 bar 4", in which a number has no unit/],
    ['the speed first', '4 m3/h 1 bar; 2 m3/h 1 mbar', /"4 m3\/h 1 bar", the speed first/],
    ['one pair', '1 bar 4 m3/h', /one pair, "1 bar 4 m3\/h"/],
    [
      'two pairs at one pressure',
      '1 bar 4 m3/h; 1 mbar 2 m3/h; 100 Pa 2 m3/h',
      /"1 mbar 2 m3\/h" and "100 Pa 2 m3\/h"/,
    ],
    ['no speed at all', '1 bar 0; 1 mbar 0', /a speed of 0 at every pressure/],
    // 40 x 1 = 40, 10 x 2 = 20
    ['a throughput that falls', '2 mbar 10 m3/h; 1 mbar 40 m3/h', /"1 mbar 40 m3\/h" and "2 mbar 10 m3\/h"/],
  ] as const)('is refused for %s', (_, text, words) => {
    const issue = faultOf(() => readSpeedPairs(text))?.issue;
    expect(issue).toMatchObject({ kind: 'wrong', argument: 'Speed table' });
    expect(issue?.kind === 'wrong' && issue.found).toMatch(words);
  });

  it('is refused where the throughput has a hump between two pairs of one throughput', () => {
    // 1 x 4 = 4 x 1, but half-way over the logarithm 2 x 2.5 = 5
    const issue = faultOf(() => readSpeedPairs('1 mbar 4 m3/h; 4 mbar 1 m3/h'))?.issue;
    expect(issue?.kind === 'wrong' && issue.found).toMatch(/falls as the pressure rises/);
    // d(S p)/dp = S + dS/d(ln p): 3.5 - 0.5/ln 4 > 0 at the end of the piece
    expect(readSpeedPairs('1 mbar 4 m3/h; 4 mbar 3.5 m3/h')).toHaveLength(2);
  });

  it('is refused for amounts that no pump has', () => {
    for (const text of ['0 Pa 0; 1 bar 4 m3/h', '20 bar 4 m3/h; 1 bar 4 m3/h', '1 bar -4 m3/h; 1 mbar 1 m3/h'])
      expect(faultOf(() => readSpeedPairs(text))?.issue).toMatchObject({ kind: 'limit', argument: 'Speed table' });
    expect(faultOf(() => readSpeedPairs('1 bar 1e12 m3/h; 1 mbar 1e-9 m3/h'))?.issue.kind).toBe('limit');
  });

  it('is refused for more pairs than anybody reads off, and for endless text, at once', () => {
    const many = Array.from({ length: MOST_PAIRS + 1 }, (_, i) => `${i + 1} Pa 1 L/s`).join(';');
    expect(faultOf(() => readSpeedPairs(many))?.issue).toMatchObject({ found: `${MOST_PAIRS + 1} pairs` });
    expect(faultOf(() => readSpeedPairs('1 '.repeat(16_000)))?.issue.kind).toBe('wrong');
  });
});

const HEADER = ['Rig', 'Part', 'Kind', 'Speed (m3/h)', 'Ultimate (Pa)', 'Speed table', 'Count', 'Gas ballast (L/s)'];
const parts = (...rows: Cell[][]) => readParts([HEADER, ...rows]);
const pumpRow = (curve: Cell, cells: { speed?: Cell; ultimate?: Cell; count?: Cell; ballast?: Cell } = {}): Cell[] => [
  ...['A', 'it', 'pump'],
  ...[cells.speed ?? '', cells.ultimate ?? '', curve, cells.count ?? '', cells.ballast ?? ''],
];
const pumpOf = (...given: Parameters<typeof pumpRow>) => parts(pumpRow(...given)).rig('A').pump;

describe('a pump row with a speed table', () => {
  it('has the largest speed of the table as its speed, and its zero as the ultimate pressure', () => {
    const pump = pumpOf(CURVE);
    expect(pump.speed).toBeCloseTo(4 / HOUR, 15);
    expect(pump.ultimate).toBeCloseTo(2, 12);
    expect(pump.speedTable).toHaveLength(4);
    const headers = ['Rig', 'Kind', 'Pump curve'];
    expect(readParts([headers, ['A', 'pump', CURVE]]).rig('A').pump.speedTable).toEqual(pump.speedTable);
  });

  it('takes Ultimate as one more pair, of speed 0, where the table stops above it', () => {
    const open = '1 bar 4 m3/h; 0.1 mbar 2 m3/h';
    expect(pumpOf(open).ultimate).toBe(0);
    expect(pumpOf(open).speedTable).toHaveLength(2);
    expect(pumpOf(open, { ultimate: 0 }).speedTable).toHaveLength(2);
    const ended = pumpOf(open, { ultimate: 2 });
    expect(ended.ultimate).toBe(2);
    expect(ended.speedTable?.[0]).toEqual([2, 0]);
    expect(faultOf(() => pumpOf(open, { ultimate: 10 }))?.issue).toMatchObject({ kind: 'order', lower: 'Ultimate' });
  });

  it('refuses an Ultimate and a Speed that say something else than the table', () => {
    expect(pumpOf(CURVE, { ultimate: 2.01, speed: 3.97 }).ultimate).toBeCloseTo(2, 12);
    expect(pumpOf(CURVE, { speed: 3.97 }).speed).toBeCloseTo(4 / HOUR, 15);
    const fault = faultOf(() => pumpOf(CURVE, { speed: 5 }));
    // 5 m3/h = 1.38889 L/s, 4 m3/h = 1.11111 L/s
    expect(fault).toMatchObject({
      issue: { argument: 'Speed', found: '1.38889 L/s beside a Speed table whose largest speed is 1.11111 L/s' },
      place: { row: 2, column: 'Speed (m3/h)' },
    });
    for (const ultimate of [0, 1, 3])
      expect(faultOf(() => pumpOf(CURVE, { ultimate }))?.issue).toMatchObject({
        argument: 'Ultimate',
        found: `${ultimate} Pa beside a Speed table that comes to 0 at 2 Pa`,
      });
  });

  it('counts pumps side by side as one of their speed together', () => {
    const two = pumpOf(CURVE, { count: 2 });
    expect(two.speed).toBeCloseTo(8 / HOUR, 15);
    expect(two.ultimate).toBeCloseTo(2, 12);
    two.speedTable?.forEach(([pressure, speed], i) => {
      expect(pressure / (POINTS[i]?.[0] ?? 0)).toBeCloseTo(1, 12);
      expect(speed).toBeCloseTo(2 * (POINTS[i]?.[1] ?? 0), 15);
    });
  });

  it('goes before the speed of a library pump, whose ultimate pressure ends it', () => {
    // the library's service pumps reach 2.7 Pa
    const row = (curve: string): Cell[] => ['A', 'pump 4 cfm', '', '', '', curve];
    const { speed, ultimate, speedTable, waterLimit } = parts(row('1 bar 4 m3/h; 0.1 mbar 2 m3/h')).rig('A').pump;
    expect(speed).toBeCloseTo(4 / HOUR, 15);
    expect(ultimate).toBe(2.7);
    expect(speedTable?.[0]).toEqual([2.7, 0]);
    expect(waterLimit).toBe(1500);
    // this one still draws at 1 Pa
    expect(parts(row('1 bar 4 m3/h; 1 Pa 2 m3/h')).rig('A').pump.ultimate).toBe(0);
  });

  it('has the water limit of gas ballast at the inlet pressure at which it draws so much vapour', () => {
    // p_s(70 C) = 31201 Pa (steam tables): S p_w = B x 101325 x 31201/(101325 - 31201) = B x 45084 Pa, by hand; half-way
    // over the logarithm from 1 to 100 mbar S is 2 L/s at 1000 Pa, so that B = 2 x 1000/45084 = 0.044362 L/s
    const { waterLimit } = pumpOf('1 mbar 1 L/s; 100 mbar 3 L/s', { ballast: 0.044362 });
    expect((waterLimit ?? 0) / 1000).toBeCloseTo(1, 3);
    expect(pumpOf('1 mbar 1 L/s; 100 mbar 3 L/s', { ballast: 0.044362, count: 2 }).waterLimit).toBe(waterLimit);
    expect(pumpOf(CURVE, { ballast: 0 }).waterLimit).toBe(0);
  });

  it('tells a faulty table with its place', () => {
    expect(faultOf(() => parts(pumpRow('1 bar 4 m3/h')))?.place).toEqual({
      table: 'parts',
      row: 2,
      column: 'Speed table',
    });
    // and not, besides, that there is no pump
    const faults = allFaults((sink) => readParts([HEADER, pumpRow('fast')], sink));
    expect(faults.map(({ place }) => place?.column)).toEqual(['Speed table']);
    expect(faultOf(() => parts(pumpRow({ error: '#REF!' })))?.issue).toMatchObject({ kind: 'cell-error' });
  });

  it('is another rig than one that differs by its table alone, and the same as one of equal table', () => {
    const rig = (curve: string) => parts(pumpRow(curve)).rig('A');
    expect(rig(CURVE)).toBe(rig(CURVE.replaceAll('; ', '\n')));
    expect(rig(CURVE)).not.toBe(rig(CURVE.replace('3.6', '3.5')));
  });
});

describe('a speed table on another row', () => {
  it('is refused for a recovery machine, which has Clearance and Efficiency', () => {
    expect(faultOf(() => parts(['A', 'box', 'machine', 3, '', CURVE]))).toMatchObject({
      issue: { argument: 'Speed table', found: 'given for kind "machine"', todo: expect.stringMatching(/Clearance/) },
      place: { row: 2, column: 'Speed table' },
    });
  });

  it('is refused for every other part, and the rest of the table is read on', () => {
    const rows: Cell[][] = [
      [...HEADER, 'Bore (mm)', 'Length (m)'],
      ['A', 'it', 'pump', '', '', CURVE],
      ['', 'hose', 'hose', '', '', CURVE, '', '', 5, 1],
      ['', 'port', 'port', '', '', '', '', '', 5],
    ];
    const faults = allFaults((sink) => readParts(rows, sink));
    expect(faults.map(({ place }) => place)).toEqual([{ table: 'parts', row: 3, column: 'Speed table' }]);
    expect(faults[0]?.issue).toMatchObject({
      found: 'given for kind "hose"',
      todo: expect.stringMatching(/row of the pump/),
    });
  });
});
