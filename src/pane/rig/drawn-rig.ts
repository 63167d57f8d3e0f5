import { type PartStage, prepareRig } from '../../engine/rig/prepare.ts';
import { raise } from '../../faults/issue.ts';
import { callById } from '../../functions/index.ts';
import { type Cell, type CellRange, isCellError } from '../../tables/cells.ts';
import { type Conditions, readConditions } from '../../tables/conditions.ts';
import { readParts } from '../../tables/rigs.ts';
import type { FaultSink } from '../../tables/table.ts';

/** One part as it is drawn and told. SI. */
export interface DrawnPart {
  /** counts from 1 at the pump */
  readonly number: number;
  readonly name: string;
  readonly kind: string;
  readonly count: number;
  /** m */
  readonly bore: number;
  /** the table gives a flow coefficient and no bore: `bore` is that of an opening of the same flow */
  readonly equivalent: boolean;
  /** m; undefined for an opening */
  readonly length: number | undefined;
  /** of the loss, 0 to 1 */
  readonly share: number;
}

/** Ways in parallel, each a row of parts in series; a part that all the flow passes is one way with one part. */
export interface DrawnStage {
  readonly ways: readonly (readonly DrawnPart[])[];
}

export interface DrawnRig {
  readonly name: string;
  readonly pump: string;
  readonly isMachine: boolean;
  /** e.g. 62.1 Pa */
  readonly pumpInlet: string;
  /** from the pump to the system */
  readonly stages: readonly DrawnStage[];
  /** the same parts in the order of RIG.PROFILE */
  readonly parts: readonly DrawnPart[];
}

const collect: FaultSink = () => {};

/** Names of the rigs of a parts table, those of sound rows at least. */
export function rigNames(parts: CellRange): readonly string[] {
  return [...readParts(parts, collect).rigs.keys()];
}

/** The conditions of a workbook; a faulty one counts as its default, since the function tells of it. */
export function conditionsOf(range: CellRange | undefined): Conditions {
  return readConditions(range, collect);
}

/**
 * A rig with the share of the loss of each part, as RIG.PROFILE tells it.
 *
 * @param pressure at the system, as typed: a number in Pa or text with a unit
 * @returns the rig, or in words why there is none
 */
export function drawnRig(
  parts: CellRange,
  name: string,
  pressure: string | number,
  conditions: CellRange | undefined,
): { readonly rig: DrawnRig } | { readonly fault: string } {
  const outcome = callById('RIG.PROFILE', [parts, name, pressure, ...(conditions === undefined ? [] : [conditions])]);
  if (!outcome.ok) return { fault: outcome.message };
  const profile = outcome.value as CellRange;
  const rig = readParts(parts, collect).rig(name);
  const column = profileColumns(profile);
  const rows = profile.slice(2);
  const drawn: DrawnPart[] = [];
  const draw = (stage: PartStage): DrawnPart => {
    const row = rows[drawn.length];
    const { part } = stage;
    if (row?.[0] !== part.name) return raise({ kind: 'internal', detail: `RIG.PROFILE has no row for ${part.name}` });
    const { passage } = part;
    const share = row[column('Share of loss')];
    const made: DrawnPart = {
      number: drawn.length + 1,
      name: part.name,
      kind: part.kind,
      count: part.count,
      bore: stage.passage.bore,
      equivalent: passage.kind === 'valve' || (passage.kind === 'sonic' && passage.bore === undefined),
      length: passage.kind === 'tube' ? passage.length : undefined,
      share: typeof share === 'number' ? share / 100 : 0,
    };
    drawn.push(made);
    return made;
  };
  const stages = prepareRig(rig, conditionsOf(conditions).gas).stages.map(
    (stage): DrawnStage =>
      stage.kind === 'part'
        ? { ways: [[draw(stage)]] }
        : { ways: stage.legs.flatMap((leg) => leg.ways.map((way) => way.map(draw))) },
  );
  return {
    rig: {
      name: rig.name,
      pump: rig.pump.name,
      isMachine: rig.machine !== undefined,
      // the pump's system side is its inlet
      pumpInlet: withUnit(profile, column('System side')),
      stages,
      parts: drawn,
    },
  };
}

/** Where a column of the profile stands: its header may end in a unit. */
function profileColumns(profile: CellRange): (name: string) => number {
  const headers = (profile[0] ?? []).map(String);
  return (name) => headers.findIndex((header) => header === name || header.startsWith(`${name} (`));
}

/** The pump row's figure in a column, with the unit of the header. */
function withUnit(profile: CellRange, column: number): string {
  const unit = /\((.+)\)$/.exec(String(profile[0]?.[column] ?? ''))?.[1] ?? '';
  return `${figure(profile[1]?.[column])} ${unit}`.trim();
}

function figure(cell: Cell): string {
  if (isCellError(cell)) return cell.error;
  return typeof cell === 'number' ? String(Number(cell.toPrecision(3))) : String(cell ?? '');
}
