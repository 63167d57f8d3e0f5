import type { DrawnPart, DrawnRig, DrawnStage } from './drawn-rig.ts';

/**
 * Where everything of a rig's drawing stands: a cut through the rig from the pump at the top to the system at the bottom.
 * Across, bores are to one scale; along, a row is as high as its label needs, and each tenfold in length beyond
 * `SHORTEST` adds the same height. Pixels at the usual size.
 */

export const WIDTH = 292;
export const AXIS = 66;
export const LABEL_LEFT = 126;
/** Widest that the passages of one stage stand side by side. */
const MOST_ACROSS = 72;
const LEAST_HALF = 1.25;
const ROW = 58;
/** m */
export const SHORTEST = 0.1;
const TENFOLD = 30;
const END = 50;
const GALLERY = 9;
/** Passages of a part with a large count that are drawn; the label has the count. */
const MOST_SHOWN = 4;
const WAY_GAP = 14;
const PASSAGE_GAP = 7;
/** px; across the number of a part, with a rim */
export const TAG = 18;

export interface Piece {
  readonly part: DrawnPart;
  /** axes of its passages */
  readonly axes: readonly number[];
  /** half of the bore as drawn */
  readonly half: number;
  readonly top: number;
  readonly bottom: number;
  /** where its number stands, on its first axis */
  readonly tag: number;
}

export interface Line {
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
}

/** A space that joins passages side by side. */
export interface Gallery {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export interface Label {
  readonly part: DrawnPart;
  readonly top: number;
}

export interface Geometry {
  readonly height: number;
  readonly pieces: readonly Piece[];
  readonly galleries: readonly Gallery[];
  readonly walls: readonly Line[];
  readonly labels: readonly Label[];
  /** y of the end of the pump, and of the beginning of the system */
  readonly first: number;
  readonly last: number;
  /** px a metre across */
  readonly scale: number;
  readonly hasWays: boolean;
}

interface Span {
  readonly left: number;
  readonly right: number;
}

/** Height of a row by the length of its part. */
function rowHeight(part: DrawnPart): number {
  const { length } = part;
  return length === undefined || length <= SHORTEST ? ROW : ROW + TENFOLD * Math.log10(length / SHORTEST);
}

const shown = (part: DrawnPart): number => Math.min(part.count, MOST_SHOWN);
const gapOf = (ways: number): number => Math.min(WAY_GAP, 42 / Math.max(1, ways));

function boresAcross(way: readonly DrawnPart[]): { readonly bores: number; readonly gaps: number } {
  return {
    bores: Math.max(...way.map((part) => shown(part) * part.bore)),
    gaps: Math.max(...way.map((part) => (shown(part) - 1) * PASSAGE_GAP)),
  };
}

function scaleOf(stages: readonly DrawnStage[]): number {
  let scale = Number.POSITIVE_INFINITY;
  for (const { ways } of stages) {
    const across = ways.map(boresAcross);
    const bores = across.reduce((sum, { bores: own }) => sum + own, 0);
    const gaps = across.reduce((sum, { gaps: own }) => sum + own, gapOf(ways.length) * (ways.length - 1));
    scale = Math.min(scale, Math.max(16, MOST_ACROSS - gaps) / bores);
  }
  return Number.isFinite(scale) ? scale : 1;
}

function spansOf(piece: Piece): readonly Span[] {
  return piece.axes.map((axis) => ({ left: axis - piece.half, right: axis + piece.half }));
}

/** Horizontal walls between two rows: where one is open and the other is not. */
function steps(above: readonly Span[], below: readonly Span[], y: number): Line[] {
  const edges = [...new Set([...above, ...below].flatMap(({ left, right }) => [left, right]))].sort((a, b) => a - b);
  const isOpen = (spans: readonly Span[], x: number) => spans.some(({ left, right }) => x > left && x < right);
  return edges.slice(1).flatMap((right, i) => {
    const left = edges[i] ?? right;
    const middle = 0.5 * (left + right);
    return isOpen(above, middle) === isOpen(below, middle) ? [] : [{ x1: left, y1: y, x2: right, y2: y }];
  });
}

function sides({ left, right }: Span, top: number, bottom: number): Line[] {
  return [left, right].map((x) => ({ x1: x, y1: top, x2: x, y2: bottom }));
}

/** The parts of one stage with their labels; ways in parallel are stretched so that they end together. */
function piecesOf(
  stage: DrawnStage,
  top: number,
  scale: number,
): { pieces: Piece[][]; labels: Label[]; bottom: number } {
  const { ways } = stage;
  const halfOf = (part: DrawnPart) => Math.max(LEAST_HALF, 0.5 * scale * part.bore);
  const widthOf = (part: DrawnPart) => shown(part) * 2 * halfOf(part) + (shown(part) - 1) * PASSAGE_GAP;
  const heights = ways.map((way) => way.reduce((sum, part) => sum + rowHeight(part), 0));
  const members = ways.flat();
  const height = Math.max(...heights, members.length * ROW);
  const widths = ways.map((way) => Math.max(...way.map(widthOf)));
  const gap = gapOf(ways.length);
  // Numbers that would stand over each other go down the ways in steps, each beside the label that it leads to.
  const isCrowded = widths.some((width, i) => i > 0 && 0.5 * (width + (widths[i - 1] ?? 0)) + gap < TAG);
  let left = AXIS - 0.5 * widths.reduce((sum, width) => sum + width, gap * (ways.length - 1));
  const pieces = ways.map((way, i) => {
    const width = widths[i] ?? 0;
    const axis = left + 0.5 * width;
    left += width + gap;
    const stretch = height / (heights[i] ?? height);
    let y = top;
    return way.map((part): Piece => {
      const half = halfOf(part);
      const pitch = 2 * half + PASSAGE_GAP;
      const axes = Array.from({ length: shown(part) }, (_, k) => axis + (k - 0.5 * (shown(part) - 1)) * pitch);
      const from = y;
      y += rowHeight(part) * stretch;
      const tag = from + (isCrowded ? (i + 0.5) / ways.length : 0.5) * (y - from);
      return { part, axes, half, top: from, bottom: y, tag };
    });
  });
  const pitch = height / members.length;
  const isSeries = ways.length === 1;
  const labels = isSeries
    ? pieces.flat().map((piece) => ({ part: piece.part, top: 0.5 * (piece.top + piece.bottom - ROW) }))
    : members.map((part, i) => ({ part, top: top + (i + 0.5) * pitch - 0.5 * ROW }));
  return { pieces, labels, bottom: top + height };
}

export function geometryOf(rig: DrawnRig): Geometry {
  const scale = scaleOf(rig.stages);
  const pieces: Piece[] = [];
  const galleries: Gallery[] = [];
  const walls: Line[] = [];
  const labels: Label[] = [];
  let y = END;
  let above: readonly Span[] | undefined;

  /** Goes on from what is above to `below`; where passages part or meet, through a space that joins them. */
  function join(below: readonly Span[]): void {
    const before = above ?? below;
    const plain = before.length === 1 && below.length === 1;
    if (plain) {
      walls.push(...steps(before, below, y));
      return;
    }
    const all = [...before, ...below];
    const whole = {
      left: Math.min(...all.map((span) => span.left)),
      right: Math.max(...all.map((span) => span.right)),
    };
    walls.push(...steps(before, [whole], y), ...sides(whole, y, y + GALLERY));
    galleries.push({ ...whole, top: y, bottom: y + GALLERY });
    y += GALLERY;
    walls.push(...steps([whole], below, y));
  }

  for (const stage of rig.stages) {
    const firsts = piecesOf(stage, y, scale).pieces.flatMap(([first]) => (first === undefined ? [] : spansOf(first)));
    join(firsts);
    const placed = piecesOf(stage, y, scale);
    labels.push(...placed.labels);
    for (const way of placed.pieces) {
      way.forEach((piece, i) => {
        for (const span of spansOf(piece)) walls.push(...sides(span, piece.top, piece.bottom));
        const next = way[i + 1];
        if (next !== undefined) walls.push(...steps(spansOf(piece), spansOf(next), piece.bottom));
      });
      pieces.push(...way);
    }
    y = placed.bottom;
    above = placed.pieces.flatMap((way) => {
      const last = way.at(-1);
      return last === undefined ? [] : spansOf(last);
    });
  }
  if (above !== undefined && above.length > 1) join([{ left: AXIS - 6, right: AXIS + 6 }]);
  return {
    height: y + END,
    pieces,
    galleries,
    walls,
    labels,
    first: END,
    last: y,
    scale,
    hasWays: rig.stages.some(({ ways }) => ways.length > 1),
  };
}

/** A round length that the scale bar can show: 1, 2 or 5 times a power of ten, m, at most `most` px long. */
export function roundLength(scale: number, most: number): number {
  const limit = most / scale;
  const power = 10 ** Math.floor(Math.log10(limit));
  const factor = [5, 2].find((step) => step * power <= limit) ?? 1;
  return factor * power;
}
