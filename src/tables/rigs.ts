import type { Passage } from '../engine/flow/passage.ts';
import type { PartKind, Pump, Rig, RigPart } from '../engine/rig/rig.ts';
import { raise } from '../faults/issue.ts';
import { KV_PER_CV } from '../units/table.ts';
import type { CellRange } from './cells.ts';
import { findLibraryPart, type LibraryPart, libraryParts } from './library/parts.ts';
import { type Column, type FaultSink, type OpenTable, openTable, plainName, throwFault } from './table.ts';

export interface PartsTable {
  /** by the name as written, in the order of the table */
  readonly rigs: ReadonlyMap<string, Rig>;
  /** Without regard to case and outer spaces. Raises `unknown` with the rigs there are. */
  rig(name: string): Rig;
}

/** discharge coefficient of a port where the row gives none; ISO 6358 openings lie from 0.6 (sharp) to 0.98 (rounded) */
const DEFAULT_COEFFICIENT = 0.8;
/** K: 0.5 for a sharp entrance and 1 for the velocity head that is lost at the exit (any textbook of fluid mechanics) */
const DEFAULT_LOSS = 1.5;
/** m; smooth drawn tubing in the usual friction charts (from memory) */
const DEFAULT_ROUGHNESS = 1.5e-6;
/** critical ratio b of a valve whose maker states none (from memory: ISO 6358 components lie from 0.2 to 0.5) */
const DEFAULT_CRITICAL_RATIO = 0.3;
/** x_T of a valve whose maker states none, air (IEC 60534-2-1 typical values lie from 0.5 to 0.8) */
const DEFAULT_PRESSURE_DROP_RATIO = 0.7;

/** Limits beyond the plain ones are the widest that a rig can mean; they keep every root of the engine within reach. */
export const PARTS_COLUMNS = {
  rig: {
    header: 'Rig',
    synonyms: ['Rig name', 'Set-up'],
    needed: true,
    description: 'name of the rig; blank is the rig of the row above',
  },
  part: {
    header: 'Part',
    synonyms: ['Part name', 'Name'],
    description: 'name of the part; a name of the parts library brings its values',
  },
  kind: {
    header: 'Kind',
    synonyms: ['Type'],
    description: 'pump, port, hose, tube, core, depressor, manifold, valve, filter or branch; blank for a library part',
  },
  bore: {
    header: 'Bore',
    synonyms: ['Inside diameter', 'ID', 'Diameter'],
    quantity: 'length',
    unit: 'mm',
    limit: { above: 0, atLeast: 0.001, atMost: 2000 },
    description: 'inside diameter',
  },
  length: {
    header: 'Length',
    quantity: 'length',
    unit: 'm',
    limit: { above: 0, atLeast: 1e-6, atMost: 100_000 },
    description: 'length of the passage',
  },
  count: {
    header: 'Count',
    synonyms: ['Number', 'Qty', 'Quantity', 'In parallel'],
    quantity: 'number',
    limit: { atLeast: 1, atMost: 10_000 },
    whole: true,
    description: 'equal parts in parallel, default 1',
  },
  coefficient: {
    header: 'Coefficient',
    synonyms: ['Discharge coefficient', 'Cd'],
    quantity: 'number',
    limit: { above: 0, atLeast: 0.001, atMost: 1 },
    description: 'discharge coefficient of an opening, default 0.8',
  },
  loss: {
    header: 'Loss',
    synonyms: ['Loss coefficient', 'K'],
    quantity: 'number',
    limit: { atLeast: 0, atMost: 1e6 },
    description: 'loss coefficient K of entrance, exit and bends, default 1.5',
  },
  roughness: {
    header: 'Roughness',
    quantity: 'length',
    unit: 'mm',
    limit: { atLeast: 0, atMost: 10 },
    description: 'roughness of the wall, default 0.0015 mm (smooth drawn tube)',
  },
  kv: {
    header: 'Kv',
    quantity: 'number',
    limit: { above: 0, atLeast: 1e-9, atMost: 1e5 },
    description: 'flow coefficient of a valve, m3/h of water at 1 bar',
  },
  cv: {
    header: 'Cv',
    quantity: 'number',
    limit: { above: 0, atLeast: 1e-9, atMost: 1e5 },
    description: 'flow coefficient of a valve, US gal/min of water at 1 psi',
  },
  sonic: {
    header: 'Sonic conductance',
    synonyms: ['C'],
    quantity: 'sonic conductance',
    unit: 'm3/(s Pa)',
    limit: { above: 0, atLeast: 1e-18, atMost: 1e-2 },
    description: 'sonic conductance of a valve by ISO 6358',
  },
  criticalRatio: {
    header: 'Critical ratio',
    synonyms: ['b', 'Critical pressure ratio'],
    quantity: 'number',
    limit: { atLeast: 0, atMost: 0.95 },
    description: 'critical pressure ratio by ISO 6358, default 0.3',
  },
  speed: {
    header: 'Speed',
    synonyms: ['Pumping speed', 'Rating'],
    quantity: 'volume flow',
    unit: 'L/s',
    limit: { above: 0, atLeast: 1e-6, atMost: 1e6 },
    description: 'pumping speed of a pump',
  },
  ultimate: {
    header: 'Ultimate',
    synonyms: ['Ultimate pressure', 'Ultimate vacuum', 'Blank-off'],
    quantity: 'pressure',
    unit: 'Pa',
    limit: { atLeast: 0, atMost: 1e5 },
    description: 'lowest pressure of a pump, default 0',
  },
  waterLimit: {
    header: 'Water limit',
    synonyms: ['Water vapour limit', 'Water vapor limit'],
    quantity: 'pressure',
    unit: 'Pa',
    limit: { atLeast: 0 },
    description: 'largest water vapour pressure that a pump passes without condensing it',
  },
  branch: { header: 'Branch', description: 'parts of one branch name stand in parallel' },
  leg: { header: 'Leg', description: 'within a branch, parts of one leg stand in series' },
  swapGroup: {
    header: 'Swap group',
    synonyms: ['Group'],
    description: 'parts of one group can stand in for each other',
  },
  cost: {
    header: 'Cost',
    synonyms: ['Price'],
    quantity: 'number',
    limit: { atLeast: 0 },
    description: 'price of the part, plain money',
  },
  note: { header: 'Note', synonyms: ['Notes', 'Remark'], description: 'free text' },
} as const satisfies Record<string, Column>;

type PartsColumn = keyof typeof PARTS_COLUMNS;
type Source = OpenTable<PartsColumn>;
type Kind = PartKind | 'pump';

const KINDS: readonly Kind[] = [
  'pump',
  'port',
  'hose',
  'tube',
  'core',
  'depressor',
  'manifold',
  'valve',
  'filter',
  'branch',
];
const KIND_BY_NAME: ReadonlyMap<string, Kind> = new Map<string, Kind>([
  ...KINDS.map((kind): [string, Kind] => [kind, kind]),
  ['orifice', 'port'],
  ['opening', 'port'],
  ['pipe', 'tube'],
  ['line', 'tube'],
]);

/** A part's numbers after the library's values were put under the row's own. */
interface Fields {
  readonly bore: number | undefined;
  readonly length: number | undefined;
  readonly coefficient: number;
  readonly loss: number;
  readonly roughness: number;
  readonly kv: number | undefined;
  readonly sonic: number | undefined;
  readonly criticalRatio: number;
}

interface Draft {
  readonly name: string;
  readonly firstRow: number;
  pump: Pump | undefined;
  /** the first row is a pump and no other is */
  sound: boolean;
  readonly parts: RigPart[];
  cost: number | undefined;
}

/**
 * Reads a parts table into rigs: one row a part, in order from the pump to the system.
 *
 * Raises with the place of the cell: headers, cells, an unknown kind or part, `no-pump` for a rig that does not begin with
 * its one pump, `missing` for a size that the part needs.
 */
export function readParts(range: CellRange, sink: FaultSink = throwFault): PartsTable {
  const table = openTable(range, 'parts', PARTS_COLUMNS, sink);
  const drafts = new Map<string, Draft>();
  let current: string | undefined;
  for (let row = 0; row < table.rowCount; row++) {
    current = table.text(row, 'rig') ?? current;
    if (current === undefined) {
      table.fault({ kind: 'missing', argument: 'Rig' }, row, 'rig');
      continue;
    }
    const key = rigKey(current);
    const draft = drafts.get(key) ?? {
      name: current,
      firstRow: row,
      pump: undefined,
      sound: true,
      parts: [],
      cost: undefined,
    };
    drafts.set(key, draft);
    readRow(table, row, draft);
  }
  const rigs = new Map<string, Rig>();
  const byKey = new Map<string, Rig>();
  for (const [key, draft] of drafts) {
    if (draft.pump === undefined || !draft.sound) {
      table.fault({ kind: 'no-pump', rig: draft.name }, draft.firstRow, 'kind');
      continue;
    }
    const { name, pump, parts, cost } = draft;
    const rig: Rig = cost === undefined ? { name, pump, parts } : { name, pump, parts, cost };
    rigs.set(name, rig);
    byKey.set(key, rig);
  }
  return {
    rigs,
    rig: (name) =>
      byKey.get(rigKey(name)) ?? raise({ kind: 'unknown', what: 'rig', value: name, known: [...rigs.keys()] }),
  };
}

function rigKey(name: string): string {
  return name.trim().toLowerCase();
}

function readRow(table: Source, row: number, draft: Draft): void {
  const cost = table.number(row, 'cost');
  if (cost !== undefined) draft.cost = (draft.cost ?? 0) + cost;
  const isFirst = row === draft.firstRow;
  const found = readKind(table, row);
  if (found === undefined) {
    // the fault is told already; a rig without a pump would only repeat it
    return;
  }
  const { kind, library } = found;
  if (isFirst !== (kind === 'pump')) draft.sound = false;
  if (kind === 'pump') {
    if (draft.pump === undefined) draft.pump = readPump(table, row, library);
    return;
  }
  const part = readPart(table, row, kind, library);
  if (part !== undefined) draft.parts.push(part);
}

function readKind(table: Source, row: number): { kind: Kind; library: LibraryPart | undefined } | undefined {
  const kindText = table.text(row, 'kind');
  const part = table.text(row, 'part');
  const library = part === undefined ? undefined : findLibraryPart(part);
  if (kindText !== undefined) {
    const kind = KIND_BY_NAME.get(plainName(kindText));
    if (kind !== undefined) return { kind, library: library?.kind === kind ? library : undefined };
    table.fault({ kind: 'unknown', what: 'kind of part', value: kindText, known: KINDS }, row, 'kind');
    return undefined;
  }
  if (part === undefined) table.fault({ kind: 'missing', argument: 'Kind' }, row, 'kind');
  else if (library !== undefined) return { kind: library.kind, library };
  else
    table.fault(
      { kind: 'unknown', what: 'library part', value: part, known: libraryParts.map(({ name }) => name) },
      row,
      'part',
    );
  return undefined;
}

function readPump(table: Source, row: number, library: LibraryPart | undefined): Pump | undefined {
  const speed = table.number(row, 'speed') ?? library?.speed ?? table.needed(row, 'speed');
  if (speed === undefined) return undefined;
  const ultimate = table.number(row, 'ultimate') ?? library?.ultimate ?? 0;
  const waterLimit = table.number(row, 'waterLimit') ?? library?.waterLimit;
  const pump = { name: table.text(row, 'part') ?? 'pump', speed, ultimate };
  return waterLimit === undefined ? pump : { ...pump, waterLimit };
}

function readPart(table: Source, row: number, kind: PartKind, library: LibraryPart | undefined): RigPart | undefined {
  const name = table.text(row, 'part') ?? kind;
  const passage = passageOf(table, row, kind, readFields(table, row, library));
  const branch = table.text(row, 'branch') ?? (kind === 'branch' ? name : undefined);
  const leg = table.text(row, 'leg');
  const swapGroup = table.text(row, 'swapGroup') ?? library?.swapGroup;
  const count = table.number(row, 'count') ?? 1;
  if (passage === undefined) return undefined;
  return {
    name,
    kind,
    passage,
    count,
    ...(branch === undefined ? {} : { branch }),
    ...(leg === undefined ? {} : { leg }),
    ...(swapGroup === undefined ? {} : { swapGroup }),
  };
}

function readFields(table: Source, row: number, library: LibraryPart | undefined): Fields {
  const bore = table.number(row, 'bore');
  const cv = table.number(row, 'cv');
  const kv = table.number(row, 'kv') ?? (cv === undefined ? undefined : cv * KV_PER_CV);
  const sonic = table.number(row, 'sonic');
  if (!table.blank(row, 'kv') && cv !== undefined) {
    table.fault(
      {
        kind: 'wrong',
        argument: 'Cv',
        found: 'given beside Kv',
        allowed: 'one of them',
        todo: 'Clear one of the two cells.',
      },
      row,
      'cv',
    );
  }
  // a coefficient of the row's own takes the place of the library's dimensions, and the other way round
  const ownCoefficient = kv !== undefined || sonic !== undefined;
  const base = library;
  return {
    bore: bore ?? (ownCoefficient ? undefined : base?.bore),
    length: table.number(row, 'length') ?? (ownCoefficient ? undefined : base?.length),
    coefficient: table.number(row, 'coefficient') ?? base?.coefficient ?? DEFAULT_COEFFICIENT,
    loss: table.number(row, 'loss') ?? base?.loss ?? DEFAULT_LOSS,
    roughness: table.number(row, 'roughness') ?? DEFAULT_ROUGHNESS,
    kv: kv ?? (bore === undefined && sonic === undefined ? base?.kv : undefined),
    sonic,
    criticalRatio: table.number(row, 'criticalRatio') ?? DEFAULT_CRITICAL_RATIO,
  };
}

function passageOf(table: Source, row: number, kind: PartKind, fields: Fields): Passage | undefined {
  const { bore, length, loss, roughness, coefficient, kv, sonic, criticalRatio } = fields;
  const byCoefficient = kind === 'valve' || kind === 'filter' || kind === 'manifold';
  if (byCoefficient && sonic !== undefined) {
    const passage = { kind: 'sonic', sonicConductance: sonic, criticalRatio } as const;
    return bore === undefined ? passage : { ...passage, bore };
  }
  if (byCoefficient && kv !== undefined) return { kind: 'valve', kv, pressureDropRatio: DEFAULT_PRESSURE_DROP_RATIO };
  if (bore === undefined) {
    if (table.blank(row, 'bore'))
      table.fault(
        { kind: 'missing', argument: kind === 'valve' ? 'Kv, Cv, Sonic conductance or Bore' : 'Bore' },
        row,
        'bore',
      );
    return undefined;
  }
  if (kind === 'port') return { kind: 'opening', bore, dischargeCoefficient: coefficient };
  if (length !== undefined) return { kind: 'tube', bore, length, loss, roughness };
  const needsLength = kind === 'hose' || kind === 'tube' || kind === 'branch';
  if (!needsLength) return { kind: 'opening', bore, dischargeCoefficient: coefficient };
  if (table.blank(row, 'length')) table.fault({ kind: 'missing', argument: 'Length' }, row, 'length');
  return undefined;
}
