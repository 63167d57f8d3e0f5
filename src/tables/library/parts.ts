import type { PartKind } from '../../engine/rig/rig.ts';
import { raise } from '../../faults/issue.ts';
import { coreRows } from './parts-cores.ts';
import { hoseRows } from './parts-hoses.ts';
import { portRows } from './parts-ports.ts';
import { pumpRows } from './parts-pumps.ts';
import { valveRows } from './parts-valves.ts';

/** Where a dimension comes from. */
export type PartBasis = 'standard' | 'common practice' | 'from memory' | 'fitted';

/** A usual part of a rig, as data: lengths in m, speed in m3/s, pressure in Pa. Only the fields of its kind are given. */
export interface LibraryPart {
  readonly name: string;
  readonly kind: PartKind | 'pump';
  readonly bore?: number;
  readonly length?: number;
  /** discharge coefficient of an opening */
  readonly coefficient?: number;
  /** K, where it differs from the default of the kind */
  readonly loss?: number;
  readonly speed?: number;
  readonly ultimate?: number;
  /** Pa */
  readonly waterLimit?: number;
  /** parts of one group can stand in for each other */
  readonly swapGroup?: string;
  readonly basis: PartBasis;
  readonly note: string;
}

/** Every part of the library, pumps first, then from the pump to the system. */
export const libraryParts: readonly LibraryPart[] = [...pumpRows, ...portRows, ...hoseRows, ...coreRows, ...valveRows];

/** Case, spaces, inch marks and punctuation do not count: `Hose 1/4" × 5 ft` is "hose 1/4 in x 5 ft". */
function plain(name: string): string {
  return name
    .toLowerCase()
    .replace(/[\u2033\u201d"]|\binch(es)?\b/g, ' in ')
    .replace(/\bfeet\b|\bfoot\b|[\u2032']/g, ' ft ')
    .replace(/\u00d7|\bby\b/g, 'x')
    .replace(/[^a-z0-9./]/g, '');
}

const byName: ReadonlyMap<string, LibraryPart> = new Map(libraryParts.map((part) => [plain(part.name), part]));

/** The library part of this name, or undefined. */
export function findLibraryPart(name: string): LibraryPart | undefined {
  return byName.get(plain(name));
}

/** The library part of this name. @throws `unknown` with the names of the library */
export function libraryPart(name: string): LibraryPart {
  return (
    findLibraryPart(name) ??
    raise({ kind: 'unknown', what: 'library part', value: name, known: libraryParts.map((part) => part.name) })
  );
}
