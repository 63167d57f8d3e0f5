import { raise } from '../../faults/issue.ts';

/**
 * Refrigeration copper tube: outside diameter and wall by standard, hence the bore.
 *
 * Sources: ASTM B280 nominal dimensions; EN 12735-1 (walls of inch sizes as printed in equipment installation manuals,
 * other walls from memory: the standard lists several walls for a size, so read the wall off the tube in hand).
 */
export type TubeStandard = 'ASTM B280 coil' | 'ASTM B280 straight' | 'EN 12735-1';
export type TubeBasis = 'published' | 'from memory';

export interface TubeSize {
  readonly standard: TubeStandard;
  /** as people write it: "3/8 in", "3/4 in heavy", "10 mm" */
  readonly label: string;
  /** the figure in the label, in `unit` */
  readonly nominal: number;
  readonly unit: 'in' | 'mm';
  readonly heavy: boolean;
  /** m */
  readonly outside: number;
  /** m */
  readonly wall: number;
  /** m */
  readonly bore: number;
  readonly basis: TubeBasis;
}

const INCH = 0.0254;
const MILLIMETRE = 0.001;

type Row = readonly [label: string, outside: number, wall: number, basis?: TubeBasis];

/** Outside diameter and wall in inches. */
const B280_COIL: readonly Row[] = [
  ['1/8', 0.125, 0.03],
  ['3/16', 0.187, 0.03],
  ['1/4', 0.25, 0.03],
  ['5/16', 0.312, 0.032],
  ['3/8', 0.375, 0.032],
  ['1/2', 0.5, 0.032],
  ['5/8', 0.625, 0.035],
  ['3/4', 0.75, 0.035],
  ['3/4 heavy', 0.75, 0.042],
  ['7/8', 0.875, 0.045],
  ['1 1/8', 1.125, 0.05],
  ['1 3/8', 1.375, 0.055],
  ['1 5/8', 1.625, 0.06, 'from memory'],
];

/** Outside diameter and wall in inches; 1/4 is an older straight-length size. */
const B280_STRAIGHT: readonly Row[] = [
  ['1/4', 0.25, 0.025, 'from memory'],
  ['3/8', 0.375, 0.03],
  ['1/2', 0.5, 0.035],
  ['5/8', 0.625, 0.04],
  ['3/4', 0.75, 0.042],
  ['7/8', 0.875, 0.045],
  ['1 1/8', 1.125, 0.05],
  ['1 3/8', 1.375, 0.055],
  ['1 5/8', 1.625, 0.06],
  ['2 1/8', 2.125, 0.07],
  ['2 5/8', 2.625, 0.08, 'from memory'],
  ['3 1/8', 3.125, 0.09, 'from memory'],
  ['3 5/8', 3.625, 0.1, 'from memory'],
  ['4 1/8', 4.125, 0.11, 'from memory'],
];

/** Outside diameter and wall in millimetres, sizes named in inches. */
const EN_INCH: readonly Row[] = [
  ['1/4', 6.35, 0.8],
  ['3/8', 9.53, 0.8],
  ['1/2', 12.7, 0.8],
  ['5/8', 15.88, 1],
  ['3/4', 19.05, 1],
  ['7/8', 22.2, 1],
  ['1', 25.4, 1],
  ['1 1/8', 28.6, 1],
  ['1 3/8', 34.92, 1.2, 'from memory'],
  ['1 5/8', 41.27, 1.25, 'from memory'],
  ['2 1/8', 53.97, 1.65, 'from memory'],
];

/** Outside diameter and wall in millimetres. */
const EN_METRIC: readonly Row[] = [
  ['6', 6, 1, 'from memory'],
  ['8', 8, 1, 'from memory'],
  ['10', 10, 1, 'from memory'],
  ['12', 12, 1, 'from memory'],
  ['15', 15, 1, 'from memory'],
  ['16', 16, 1, 'from memory'],
  ['18', 18, 1, 'from memory'],
  ['22', 22, 1, 'from memory'],
  ['28', 28, 1.5, 'from memory'],
  ['35', 35, 1.5, 'from memory'],
  ['42', 42, 1.5, 'from memory'],
  ['54', 54, 2, 'from memory'],
];

function sizes(
  standard: TubeStandard,
  unit: 'in' | 'mm',
  dimension: number,
  rows: readonly Row[],
): readonly TubeSize[] {
  return rows.map(([text, outside, wall, basis = 'published']) => {
    const heavy = text.endsWith(' heavy');
    const figure = heavy ? text.slice(0, -' heavy'.length) : text;
    return {
      standard,
      label: `${figure} ${unit}${heavy ? ' heavy' : ''}`,
      nominal: figureOf(figure),
      unit,
      heavy,
      outside: outside * dimension,
      wall: wall * dimension,
      bore: (outside - 2 * wall) * dimension,
      basis,
    };
  });
}

/** "3/8", "1 1/8", "1-1/8", "10", "0.375"; NaN for anything else. */
function figureOf(text: string): number {
  const match = /^(?:(\d+)[\s-]+)?(\d+)\s*\/\s*(\d+)$/.exec(text);
  if (match !== null) return Number(match[1] ?? 0) + Number(match[2]) / Number(match[3]);
  return /^(\d+\.?\d*|\.\d+)$/.test(text) ? Number(text) : Number.NaN;
}

/** Every tube size known here. */
export const tubeSizes: readonly TubeSize[] = [
  ...sizes('ASTM B280 coil', 'in', INCH, B280_COIL),
  ...sizes('ASTM B280 straight', 'in', INCH, B280_STRAIGHT),
  ...sizes('EN 12735-1', 'in', MILLIMETRE, EN_INCH),
  ...sizes('EN 12735-1', 'mm', MILLIMETRE, EN_METRIC),
];

/** Where no standard is named, these are tried in turn: most line sets are annealed coil. */
export const tubeStandards: readonly TubeStandard[] = ['ASTM B280 coil', 'ASTM B280 straight', 'EN 12735-1'];

const standardNames: ReadonlyMap<string, readonly TubeStandard[]> = new Map([
  ['astmb280coil', ['ASTM B280 coil']],
  ['b280coil', ['ASTM B280 coil']],
  ['coil', ['ASTM B280 coil']],
  ['annealed', ['ASTM B280 coil']],
  ['astmb280annealed', ['ASTM B280 coil']],
  ['astmb280annealedcoil', ['ASTM B280 coil']],
  ['astmb280straight', ['ASTM B280 straight']],
  ['b280straight', ['ASTM B280 straight']],
  ['straight', ['ASTM B280 straight']],
  ['drawn', ['ASTM B280 straight']],
  ['astmb280drawn', ['ASTM B280 straight']],
  ['astmb280drawnstraight', ['ASTM B280 straight']],
  ['astmb280', ['ASTM B280 coil', 'ASTM B280 straight']],
  ['b280', ['ASTM B280 coil', 'ASTM B280 straight']],
  ['astm', ['ASTM B280 coil', 'ASTM B280 straight']],
  ['en127351', ['EN 12735-1']],
  ['en12735', ['EN 12735-1']],
  ['12735', ['EN 12735-1']],
  ['127351', ['EN 12735-1']],
  ['en', ['EN 12735-1']],
] as const);

function standardsNamed(standard: string): readonly TubeStandard[] {
  const found = standardNames.get(standard.toLowerCase().replace(/[^a-z0-9]/g, ''));
  return found ?? raise({ kind: 'unknown', what: 'tube standard', value: standard, known: tubeStandards });
}

interface Request {
  readonly figure: number;
  readonly unit: 'in' | 'mm';
  readonly heavy: boolean;
}

/** A bare figure is inches up to here and millimetres above: the largest inch size is 4 1/8, the smallest metric one 6. */
const LARGEST_BARE_INCH = 4.5;

function requestOf(size: string | number): Request {
  const text = String(size)
    // a vulgar fraction sign stands apart from the whole number before it
    .replace(/[\u00bc-\u00be\u2150-\u215e]/g, (sign) => ` ${sign.normalize('NFKC').replace('\u2044', '/')}`)
    .replace(/\u2044/g, '/')
    .replace(/[\u2033\u201d]|''/g, '"')
    .trim()
    .toLowerCase();
  const heavy = /\bheavy$/.test(text);
  const match = /^(.*?)\s*(in\.?|inch|inches|"|mm|millimetres?|millimeters?)?\s*(?:o\.?d\.?)?$/.exec(
    heavy ? text.slice(0, -'heavy'.length).trim() : text,
  );
  const figure = figureOf((match?.[1] ?? '').replace(',', '.'));
  const written = match?.[2];
  const unit =
    written === undefined ? (figure > LARGEST_BARE_INCH ? 'mm' : 'in') : written.startsWith('m') ? 'mm' : 'in';
  return { figure, unit, heavy };
}

/** Decimal inches are often cut to two places (0.38 for 3/8); the closest two sizes are 1/16 in apart. */
const NOMINAL_SLACK_IN = 0.0051;
const NOMINAL_SLACK_MM = 0.001;
/** Millimetre figures of inch tube are rounded to one or two places (19.1, 9.52). */
const OUTSIDE_SLACK = 0.06e-3;

function isNominal(size: TubeSize, request: Request): boolean {
  const slack = request.unit === 'in' ? NOMINAL_SLACK_IN : NOMINAL_SLACK_MM;
  return size.unit === request.unit && size.heavy === request.heavy && Math.abs(size.nominal - request.figure) <= slack;
}

/**
 * The tube of a size, with its outside diameter, wall and bore in m.
 *
 * @param size what the tube is called: "3/8", "3/8 in", "1 1/8", "10 mm", "10", 0.375; a bare figure up to 4.5 is inches,
 *   above it millimetres; the outside diameter in mm ("9.52 mm") is understood too
 * @param standard "ASTM B280 coil", "ASTM B280 straight" or "EN 12735-1"; where omitted, they are tried in this order
 * @throws `unknown` with the known sizes (or standards), `limit` for a number that is not above 0
 */
export function tubeSize(size: string | number, standard?: string): TubeSize {
  if (typeof size === 'number') {
    if (!Number.isFinite(size))
      raise({ kind: 'not-a-number', argument: 'size', value: size, expected: 'a tube size such as 3/8 in' });
    if (size <= 0) raise({ kind: 'limit', argument: 'size', value: size, rule: 'above', limit: 0, unit: 'in' });
  }
  const standards = standard === undefined || standard.trim() === '' ? tubeStandards : standardsNamed(standard);
  const request = requestOf(size);
  // names first through all the standards, so that "54 mm" is the metric size and not 2 1/8 in, which is 53.975 mm
  for (const name of standards) {
    const found = tubeSizes.find((tube) => tube.standard === name && isNominal(tube, request));
    if (found !== undefined) return found;
  }
  const outside = request.figure * (request.unit === 'in' ? INCH : MILLIMETRE);
  for (const name of standards) {
    const found = tubeSizes.find(
      (tube) =>
        tube.standard === name && tube.heavy === request.heavy && Math.abs(tube.outside - outside) <= OUTSIDE_SLACK,
    );
    if (found !== undefined) return found;
  }
  const known = tubeSizes.filter((tube) => standards.includes(tube.standard)).map((tube) => tube.label);
  return raise({ kind: 'unknown', what: 'tube size', value: String(size), known: [...new Set(known)] });
}

/** Inside diameter of a refrigeration copper tube, m. See `tubeSize` for what is understood and what is refused. */
export function tubeBore(size: string | number, standard?: string): number {
  return tubeSize(size, standard).bore;
}
