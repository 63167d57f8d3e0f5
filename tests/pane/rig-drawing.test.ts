import { describe, expect, it } from 'vitest';
import { callById } from '../../src/functions/index.ts';
import { type DrawnRig, drawnRig, rigNames } from '../../src/pane/rig/drawn-rig.ts';
import { geometryOf, roundLength } from '../../src/pane/rig/geometry.ts';
import { rigAt } from '../../src/pane/rig/rig-at.ts';
import type { CellRange } from '../../src/tables/cells.ts';

const PARTS: CellRange = [
  ['Rig', 'Part', 'Kind', 'Bore (mm)', 'Length (m)', 'Count', 'Speed (cfm)', 'Branch', 'Leg', 'Kv'],
  ['plain', 'pump', 'pump', '', '', '', 5, '', '', ''],
  ['', 'wide hose', 'hose', 12, 1.5, '', '', '', '', ''],
  ['', 'long hose', 'hose', 12, 15, '', '', '', '', ''],
  ['', 'core', 'core', 1.5, 0.01, '', '', '', '', ''],
  ['', 'valve', 'valve', '', '', '', '', '', '', 0.2],
  ['split', 'pump', 'pump', '', '', '', 8, '', '', ''],
  ['', 'tee', 'port', 10, '', '', '', '', '', ''],
  ['', 'left hose', 'hose', 6, 1.5, '', '', 'both', 'left', ''],
  ['', 'left core', 'core', 1.5, 0.01, '', '', 'both', 'left', ''],
  ['', 'right hose', 'hose', 9, 1.5, 2, '', 'both', 'right', ''],
];

function drawn(name: string): DrawnRig {
  const made = drawnRig(PARTS, name, '500 micron', undefined);
  if ('fault' in made) throw new Error(made.fault);
  return made.rig;
}

describe('a rig as it is drawn', () => {
  it('stands at the pump inlet pressure that the speed table of its pump gives', () => {
    // one conductance of the hose, two pumps: the slower one leaves the higher pressure at its inlet
    const inlet = (curve: string): number => {
      const rows: CellRange = [
        ['Rig', 'Kind', 'Speed table', 'Bore (mm)', 'Length (m)'],
        ['tabled', 'pump', curve, '', ''],
        ['', 'hose', '', 6, 1.5],
      ];
      const made = drawnRig(rows, 'tabled', '500 micron', undefined);
      if ('fault' in made) throw new Error(made.fault);
      return Number.parseFloat(made.rig.pumpInlet);
    };
    expect(inlet('1 bar 4 m3/h; 1 Pa 1 m3/h')).toBeGreaterThan(2 * inlet('1 bar 4 m3/h; 1 Pa 4 m3/h'));
  });

  it('has the shares of RIG.PROFILE, which make up the whole loss, in series and in parallel', () => {
    for (const name of rigNames(PARTS)) {
      const outcome = callById('RIG.PROFILE', [PARTS, name, '500 micron']);
      if (!outcome.ok) throw new Error(outcome.message);
      const rows = (outcome.value as CellRange).slice(2);
      const { parts } = drawn(name);
      expect(parts.map((part) => part.name)).toEqual(rows.map((row) => row[0]));
      const at = (outcome.value as CellRange)[0]?.findIndex((header) => String(header).startsWith('Share')) ?? -1;
      parts.forEach((part, i) => {
        expect(100 * part.share).toBeCloseTo(Number(rows[i]?.[at]), 9);
      });
      expect(parts.reduce((sum, part) => sum + part.share, 0)).toBeCloseTo(1, 9);
    }
  });

  it('says in words what RIG.PROFILE says of a pressure that makes no sense', () => {
    const made = drawnRig(PARTS, 'plain', '500 parsec', undefined);
    expect('fault' in made && made.fault).toMatch(/parsec/);
  });

  it('draws bores to one scale, and longer parts longer, ten times the length adding the same', () => {
    const { pieces, scale } = geometryOf(drawn('plain'));
    const half = (name: string) => pieces.find((piece) => piece.part.name === name)?.half ?? 0;
    expect(half('wide hose') / half('core')).toBeCloseTo(12 / 1.5, 9);
    expect(2 * half('wide hose')).toBeCloseTo(0.012 * scale, 9);
    const height = (name: string) => {
      const piece = pieces.find(({ part }) => part.name === name);
      return piece === undefined ? 0 : piece.bottom - piece.top;
    };
    const tenfold = height('long hose') - height('wide hose');
    // From 0.1 m to 1.5 m the length grows by a little more than tenfold: log10 15.
    expect(height('wide hose') - height('core')).toBeCloseTo(tenfold * Math.log10(15), 6);
  });

  it('marks the bore of a part that has a flow coefficient only as worked out', () => {
    expect(drawn('plain').parts.map((part) => part.equivalent)).toEqual([false, false, false, true]);
  });

  it('draws branches side by side, between the same two heights, without one over another', () => {
    const rig = drawn('split');
    expect(rig.stages.map(({ ways }) => ways.length)).toEqual([1, 2]);
    const { pieces, labels, height } = geometryOf(rig);
    const of = (name: string) => pieces.find((piece) => piece.part.name === name);
    const [leftHose, leftCore, right] = [of('left hose'), of('left core'), of('right hose')];
    expect(leftHose?.top).toBe(right?.top);
    expect(leftCore?.bottom).toBeCloseTo(right?.bottom ?? 0, 6);
    expect(right?.axes).toHaveLength(2);
    const edge = (leftHose?.axes[0] ?? 0) + (leftHose?.half ?? 0);
    expect((right?.axes[0] ?? 0) - (right?.half ?? 0)).toBeGreaterThan(edge);
    const tops = labels.map(({ top }) => top);
    expect([...tops].sort((a, b) => a - b)).toEqual(tops);
    for (const [i, top] of tops.entries()) expect((tops[i + 1] ?? height) - top).toBeGreaterThan(40);
  });

  it.each([2, 5, 6, 9, 12])('keeps the numbers of %i legs apart, each on its passage', (count) => {
    const legs = Array.from({ length: count }, (_, i) => [
      '',
      `hose ${i}`,
      'hose',
      6,
      1.5,
      '',
      '',
      'all',
      `leg ${i}`,
      '',
    ]);
    const made = drawnRig(
      [...PARTS.slice(0, 1), ['many', 'pump', 'pump', '', '', '', 8, '', '', ''], ...legs],
      'many',
      '500 micron',
      undefined,
    );
    if ('fault' in made) throw new Error(made.fault);
    const { pieces } = geometryOf(made.rig);
    expect(pieces).toHaveLength(count);
    for (const [i, piece] of pieces.entries()) {
      expect(piece.tag).toBeGreaterThan(piece.top);
      expect(piece.tag).toBeLessThan(piece.bottom);
      for (const other of pieces.slice(i + 1)) {
        // discs of 16 px across
        const apart = Math.hypot((other.axes[0] ?? 0) - (piece.axes[0] ?? 0), other.tag - piece.tag);
        expect(apart).toBeGreaterThan(16);
      }
    }
  });

  it('has a scale bar of a round length that fits', () => {
    expect(roundLength(10, 100)).toBeCloseTo(10, 9);
    expect(roundLength(7, 100)).toBeCloseTo(10, 9);
    expect(roundLength(12, 100)).toBeCloseTo(5, 9);
  });
});

describe('the rig of the selected row', () => {
  const parts = { sheet: 'Parts', row: 3, column: 0, cells: PARTS };
  const rigs = rigNames(PARTS);
  const row = (sheet: string, at: number, ...cells: (string | number | null)[]) => ({
    sheet,
    row: at,
    column: 0,
    cells: [cells],
  });

  it('is, in the parts table, that of the part, a blank name being that of the row above', () => {
    expect(rigAt(parts, row('Parts', 6), rigs)).toBe('plain');
    expect(rigAt(parts, row('Parts', 11), rigs)).toBe('split');
    expect(rigAt(parts, row('Parts', 3), rigs)).toBeUndefined();
    expect(rigAt(parts, row('Parts', 60), rigs)).toBeUndefined();
  });

  it('is, elsewhere, the one that the row names', () => {
    expect(rigAt(parts, row('Units', 6, 'AC-1', 12, ' Split '), rigs)).toBe('split');
    expect(rigAt(parts, row('Units', 6, 'AC-1', 12, null), rigs)).toBeUndefined();
  });
});
