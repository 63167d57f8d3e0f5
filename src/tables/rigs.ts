import { DEFAULT_DISCHARGE } from '../engine/flow/opening.ts';
import type { Passage } from '../engine/flow/passage.ts';
import { DEFAULT_CRITICAL_RATIO } from '../engine/flow/sonic.ts';
import { DEFAULT_TUBE_LOSS } from '../engine/flow/tube.ts';
import type { Machine, PartKind, Pump, Rig, RigPart } from '../engine/rig/rig.ts';
import { raise } from '../faults/issue.ts';
import { KV_PER_CV } from '../units/table.ts';
import { sharedRecords } from './cache.ts';
import type { CellRange } from './cells.ts';
import { findLibraryPart, type LibraryPart, libraryParts } from './library/parts.ts';
import { PARTS_COLUMNS, type PartsColumn } from './parts-columns.ts';
import { readMachine, readPump, refuseSpeedTable } from './rig-drivers.ts';
import { type FaultSink, type OpenTable, openTable, plainName, throwFault } from './table.ts';

export interface PartsTable {
  /** by the name as written, in the order of the table */
  readonly rigs: ReadonlyMap<string, Rig>;
  /** Without regard to case and outer spaces. Raises `unknown` with the rigs there are. */
  rig(name: string): Rig;
}

/** What hangs on a rig's record, its curves above all, outlives a change of another rig in the table. */
const MOST_RIGS_KEPT = 128;
const sameRig = sharedRecords<Rig>(MOST_RIGS_KEPT);

/** m; smooth drawn tubing in the usual friction charts (from memory) */
const DEFAULT_ROUGHNESS = 1.5e-6;

type Source = OpenTable<PartsColumn>;
type Kind = PartKind | 'pump' | 'machine';

const KINDS: readonly Kind[] = [
  'pump',
  'machine',
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
  [plainName('recovery machine'), 'machine'],
  ['orifice', 'port'],
  ['opening', 'port'],
  ['pipe', 'tube'],
  ['line', 'tube'],
]);

/** The kind of part that a cell names, or undefined. */
export function kindNamed(text: string): Kind | undefined {
  return KIND_BY_NAME.get(plainName(text));
}

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
  machine: Machine | undefined;
  /** row that keeps the rig from having one pump, in its first row */
  unsoundRow: number | undefined;
  /** its pump has a fault, which is told */
  pumpFaulty: boolean;
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
      machine: undefined,
      unsoundRow: undefined,
      pumpFaulty: false,
      parts: [],
      cost: undefined,
    };
    drafts.set(key, draft);
    readRow(table, row, draft);
  }
  const rigs = new Map<string, Rig>();
  const byKey = new Map<string, Rig>();
  for (const [key, draft] of drafts) {
    if (draft.pump === undefined && draft.pumpFaulty && draft.unsoundRow === undefined) continue;
    if (draft.pump === undefined || draft.unsoundRow !== undefined) {
      table.fault({ kind: 'no-pump', rig: draft.name }, draft.unsoundRow ?? draft.firstRow, 'kind');
      continue;
    }
    const { name, pump, machine, parts, cost } = draft;
    const rig = sameRig({
      name,
      pump,
      ...(machine === undefined ? {} : { machine }),
      parts,
      ...(cost === undefined ? {} : { cost }),
    });
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
  const drives = kind === 'pump' || kind === 'machine';
  if (isFirst !== drives) draft.unsoundRow ??= row;
  if (drives) {
    if (draft.pump !== undefined) return;
    draft.pump = readPump(table, row, kind, library);
    draft.pumpFaulty ||= draft.pump === undefined;
    if (kind === 'machine' && draft.pump !== undefined) draft.machine = readMachine(table, row, draft.pump);
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
    const kind = kindNamed(kindText);
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

function readPart(table: Source, row: number, kind: PartKind, library: LibraryPart | undefined): RigPart | undefined {
  const name = table.text(row, 'part') ?? kind;
  refuseSpeedTable(table, row, kind);
  const passage = passageOf(table, row, kind, readFields(table, row, library));
  const branch = table.text(row, 'branch') ?? (kind === 'branch' ? name : undefined);
  const leg = table.text(row, 'leg');
  if (leg !== undefined && branch === undefined) {
    const todo = 'Fill in Branch, or clear Leg.';
    table.fault(
      { kind: 'wrong', argument: 'Leg', found: `"${leg}" without a Branch`, allowed: 'a leg of a branch', todo },
      row,
      'leg',
    );
  }
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
  if (!table.blank(row, 'kv') && cv !== undefined) besides(table, row, 'cv', 'Cv', 'Kv');
  else if (kv !== undefined && sonic !== undefined) besides(table, row, 'sonic', 'Sonic conductance', 'Kv or Cv');
  // a coefficient of the row's own takes the place of the library's dimensions, and the other way round
  const ownCoefficient = kv !== undefined || sonic !== undefined;
  return {
    bore: bore ?? (ownCoefficient ? undefined : library?.bore),
    length: table.number(row, 'length') ?? (ownCoefficient ? undefined : library?.length),
    coefficient: table.number(row, 'coefficient') ?? library?.coefficient ?? DEFAULT_DISCHARGE,
    loss: table.number(row, 'loss') ?? library?.loss ?? DEFAULT_TUBE_LOSS,
    roughness: table.number(row, 'roughness') ?? DEFAULT_ROUGHNESS,
    kv,
    sonic,
    criticalRatio: table.number(row, 'criticalRatio') ?? DEFAULT_CRITICAL_RATIO,
  };
}

function besides(table: Source, row: number, column: PartsColumn, argument: string, other: string): void {
  const todo = 'Clear one of the two cells.';
  table.fault({ kind: 'wrong', argument, found: `given beside ${other}`, allowed: 'one of them', todo }, row, column);
}

function passageOf(table: Source, row: number, kind: PartKind, fields: Fields): Passage | undefined {
  const { bore, length, loss, roughness, coefficient, kv, sonic, criticalRatio } = fields;
  const byCoefficient = kind === 'valve' || kind === 'filter' || kind === 'manifold';
  if (byCoefficient && sonic !== undefined) {
    const passage = { kind: 'sonic', sonicConductance: sonic, criticalRatio } as const;
    return bore === undefined ? passage : { ...passage, bore };
  }
  if (byCoefficient && kv !== undefined) return { kind: 'valve', kv, pressureDropRatio: 1 - criticalRatio };
  if (bore === undefined) {
    if (table.blank(row, 'bore')) {
      if (kind === 'valve') {
        table.fault({ kind: 'missing', argument: 'Kv, Cv, Sonic conductance or Bore' }, row, 'bore');
      } else table.needed(row, 'bore');
    }
    return undefined;
  }
  if (kind === 'port') return { kind: 'opening', bore, dischargeCoefficient: coefficient };
  if (length !== undefined) return { kind: 'tube', bore, length, loss, roughness };
  const needsLength = kind === 'hose' || kind === 'tube' || kind === 'branch';
  if (!needsLength) return { kind: 'opening', bore, dischargeCoefficient: coefficient };
  if (table.blank(row, 'length')) table.needed(row, 'length');
  return undefined;
}
