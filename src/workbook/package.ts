import { Inflate, strToU8, type Zippable, zipSync } from 'fflate';
import { atMost, LIMITS, type Limits, unreadable } from './limits.ts';
import { hasDoctype, plainXml } from './xml.ts';

/**
 * The package around a workbook: a ZIP archive of named parts (ISO/IEC 21320-1, APPNOTE 6.3 §4.3). Reading goes by the
 * central directory and stops at the first bound that is passed; writing gives the same bytes for the same parts.
 */

/** Parts by name, in the order of the file. */
export type Parts = Map<string, Uint8Array>;

const END_SIGNATURE = 0x06054b50;
const END_LENGTH = 22;
const LONGEST_COMMENT = 0xffff;
const ENTRY_SIGNATURE = 0x02014b50;
const ENTRY_LENGTH = 46;
const LOCAL_SIGNATURE = 0x04034b50;
const LOCAL_LENGTH = 30;
const END64_SIGNATURE = 0x06064b50;
const LOCATOR64_SIGNATURE = 0x07064b50;
const LOCATOR64_LENGTH = 20;
const EXTRA64 = 0x0001;
const STORED = 0;
const DEFLATED = 8;
const ENCRYPTED_FLAG = 1;
/** First bytes of the older compound file, which also wraps encrypted workbooks ([MS-CFB] §2.2). */
const COMPOUND_FILE = [0xd0, 0xcf, 0x11, 0xe0];
const SLICE = 64 * 1024;

interface Entry {
  readonly name: string;
  readonly method: number;
  readonly packed: number;
  readonly unpacked: number;
  readonly crc: number;
  readonly at: number;
}

/**
 * Unpacks a workbook's package.
 * @param bytes the file
 * @param limits bounds on size, number of parts and expansion
 * @returns each part by name
 * @throws Fault `wrong` for a file that is cut short, damaged, encrypted or no package; `limit` when a bound is passed
 */
export function readParts(bytes: Uint8Array, limits: Limits = LIMITS): Parts {
  if (bytes.length === 0) unreadable('an empty file');
  atMost('Workbook size', bytes.length, limits.fileBytes, 'bytes');
  if (COMPOUND_FILE.every((byte, index) => bytes[index] === byte)) {
    unreadable('a file with a password or one in the older .xls form', 'as .xlsx without a password');
  }
  const entries = directory(bytes, limits);
  const parts: Parts = new Map();
  let total = 0;
  for (const entry of entries) {
    total += entry.unpacked;
    atMost('Workbook unpacked size', total, limits.unpackedBytes, 'bytes');
    if (entry.unpacked > limits.ratioFromBytes) {
      atMost(
        `Expansion of ${entry.name}`,
        Math.ceil(entry.unpacked / Math.max(entry.packed, 1)),
        limits.ratio,
        'times',
      );
    }
  }
  for (const entry of entries) {
    if (entry.name.endsWith('/')) continue;
    const name = entry.name.replace(/^\/+/, '');
    if (parts.has(name)) unreadable(`a package with the part ${name} twice`);
    parts.set(name, unpack(bytes, entry));
  }
  refuseDoctypes(parts);
  return parts;
}

/** Packs parts; no clock and no platform shows in the result. */
export function writeParts(parts: ReadonlyMap<string, Uint8Array>): Uint8Array {
  return pack(parts, 6);
}

/** The same parts as an archive without compression, for a reader that wants an archive. */
export function storeParts(parts: ReadonlyMap<string, Uint8Array>): Uint8Array {
  return pack(parts, 0);
}

/** First day that the format can tell (1 January 1980), in local time as the packer reads it. */
const FIRST_DAY = new Date(1980, 0, 1);
/** Made by: MS-DOS. The same on each system. */
const SYSTEM = 0;

function pack(parts: ReadonlyMap<string, Uint8Array>, level: 0 | 6): Uint8Array {
  const files: Zippable = {};
  for (const [name, bytes] of parts) files[name] = [bytes, { level, mtime: FIRST_DAY, os: SYSTEM }];
  return zipSync(files);
}

function directory(bytes: Uint8Array, limits: Limits): readonly Entry[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = findEnd(view);
  if (end === undefined) {
    return unreadable(bytes[0] === 0x50 && bytes[1] === 0x4b ? 'a file that is cut short' : 'a file of another kind');
  }
  let count = view.getUint16(end + 10, true);
  let at = view.getUint32(end + 16, true);
  const locator = end - LOCATOR64_LENGTH;
  if (locator >= 0 && view.getUint32(locator, true) === LOCATOR64_SIGNATURE) {
    const end64 = long(view, locator + 8);
    if (end64 + 56 > bytes.length || view.getUint32(end64, true) !== END64_SIGNATURE) damaged();
    count = long(view, end64 + 32);
    at = long(view, end64 + 48);
  }
  atMost('Parts in the workbook', count, limits.parts, 'parts');
  const entries: Entry[] = [];
  const decoder = new TextDecoder();
  for (let index = 0; index < count; index++) {
    if (at + ENTRY_LENGTH > bytes.length || view.getUint32(at, true) !== ENTRY_SIGNATURE) damaged();
    if ((view.getUint16(at + 8, true) & ENCRYPTED_FLAG) !== 0) {
      unreadable('a package with a password', 'without one');
    }
    const nameLength = view.getUint16(at + 28, true);
    const extraLength = view.getUint16(at + 30, true);
    const wide = extra64(view, at + ENTRY_LENGTH + nameLength, extraLength);
    const unpacked = wide(view.getUint32(at + 24, true));
    const packed = wide(view.getUint32(at + 20, true));
    entries.push({
      name: decoder.decode(bytes.subarray(at + ENTRY_LENGTH, at + ENTRY_LENGTH + nameLength)),
      method: view.getUint16(at + 10, true),
      packed,
      unpacked,
      crc: view.getUint32(at + 16, true),
      at: wide(view.getUint32(at + 42, true)),
    });
    at += ENTRY_LENGTH + nameLength + extraLength + view.getUint16(at + 32, true);
  }
  return entries;
}

function findEnd(view: DataView): number | undefined {
  const least = Math.max(0, view.byteLength - END_LENGTH - LONGEST_COMMENT);
  for (let at = view.byteLength - END_LENGTH; at >= least; at--) {
    if (view.getUint32(at, true) === END_SIGNATURE) return at;
  }
  return undefined;
}

function long(view: DataView, at: number): number {
  if (at + 8 > view.byteLength) damaged();
  return Number(view.getBigUint64(at, true));
}

/** Reads the 64-bit fields that stand in for 32-bit ones at their ceiling, in the order in which they are asked for. */
function extra64(view: DataView, from: number, length: number): (value: number) => number {
  const end = Math.min(from + length, view.byteLength);
  let at = from;
  while (at + 4 <= end && view.getUint16(at, true) !== EXTRA64) at += 4 + view.getUint16(at + 2, true);
  let next = at + 4;
  return (value) => {
    if (value !== 0xffffffff) return value;
    if (next + 8 > end) damaged();
    const wide = long(view, next);
    next += 8;
    return wide;
  };
}

function unpack(bytes: Uint8Array, entry: Entry): Uint8Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (entry.at + LOCAL_LENGTH > bytes.length || view.getUint32(entry.at, true) !== LOCAL_SIGNATURE) damaged();
  const from = entry.at + LOCAL_LENGTH + view.getUint16(entry.at + 26, true) + view.getUint16(entry.at + 28, true);
  if (from + entry.packed > bytes.length) damaged();
  const packed = bytes.subarray(from, from + entry.packed);
  let part: Uint8Array;
  if (entry.method === STORED) part = packed;
  else if (entry.method === DEFLATED) part = inflate(packed, entry);
  else return unreadable(`a package with the unusual compression method ${entry.method}`);
  if (part.length !== entry.unpacked || crc32(part) !== entry.crc) damaged(entry.name);
  return part;
}

/** Inflates in slices, so that a part which holds more than it says is stopped soon after. */
function inflate(packed: Uint8Array, entry: Entry): Uint8Array {
  const part = new Uint8Array(entry.unpacked);
  let length = 0;
  const stream = new Inflate((chunk) => {
    if (length + chunk.length > part.length) damaged(entry.name);
    part.set(chunk, length);
    length += chunk.length;
  });
  try {
    for (let at = 0; at < packed.length; at += SLICE) {
      stream.push(packed.subarray(at, at + SLICE), at + SLICE >= packed.length);
    }
  } catch {
    damaged(entry.name);
  }
  return part.subarray(0, length);
}

function damaged(name?: string): never {
  return unreadable(name === undefined ? 'a damaged package' : `a package with the part ${name} damaged`);
}

const CRC_TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let value = byte;
  for (let bit = 0; bit < 8; bit++) value = (value & 1) === 1 ? 0xedb88320 ^ (value >>> 1) : value >>> 1;
  return value;
});

function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (let index = 0; index < bytes.length; index++) {
    crc = (CRC_TABLE[(crc ^ (bytes[index] as number)) & 0xff] as number) ^ (crc >>> 8);
  }
  return (crc ^ 0xffffffff) >>> 0;
}

const DECODER = new TextDecoder();

/** A part as text that can be scanned for tags; undefined when the package has no such part. */
export function partText(parts: ReadonlyMap<string, Uint8Array>, name: string): string | undefined {
  const bytes = parts.get(name);
  return bytes === undefined ? undefined : plainXml(DECODER.decode(bytes));
}

/** Document types may come in any part of XML: ISO/IEC 29500-2 §8.2 allows none, and there is no honest use for one. */
function refuseDoctypes(parts: Parts): void {
  for (const [name, bytes] of parts) {
    if (!/\.(?:xml|rels)$/i.test(name)) continue;
    if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)) {
      unreadable(`a package with the part ${name} in UTF-16`);
    }
    if (bytes.includes(0) || hasDoctype(DECODER.decode(bytes.subarray(0, PROLOG)), bytes.length > PROLOG)) {
      unreadable(`a package with a document type, or with what is no text, in the part ${name}`);
    }
  }
}

/** As much of a part as can stand before its first element; a document type has to come there. */
const PROLOG = 64 * 1024;

export function textPart(text: string): Uint8Array {
  return strToU8(text);
}
