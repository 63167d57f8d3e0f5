import { crc32, deflateSync } from 'node:zlib';

/** Our mark on a grid of 32 × 32: a rounded square in which two walls close in on a passage and open again. */
const GRID = 32;
const CORNER = 7;
const GROUND = [0x3d, 0x4f, 0x80] as const;
const WALL = [0xf2, 0xf0, 0xea] as const;
const TOP = 6;
const BOTTOM = 26;
const OUTER = 4;
/** How far a wall reaches in at its ends and at the narrowest place. */
const WIDE = 11;
const NARROW = 14;
/** Samples along each side of a pixel, so that edges are smooth. */
const SAMPLES = 4;

/** The add-in's icon as a PNG of `size` × `size` pixels (ISO/IEC 15948): 8-bit colour with alpha, no filter. */
export function iconPng(size: number): Buffer {
  const rows: number[] = [];
  for (let y = 0; y < size; y += 1) {
    rows.push(0);
    for (let x = 0; x < size; x += 1) rows.push(...pixel(x, y, size));
  }
  const header = Buffer.alloc(13);
  header.writeUInt32BE(size, 0);
  header.writeUInt32BE(size, 4);
  // bit depth 8, colour type 6 (colour with alpha), then compression, filter and interlace of the only kind or none
  header.set([8, 6, 0, 0, 0], 8);
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', header),
    chunk('IDAT', deflateSync(Buffer.from(rows), { level: 9 })),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

function chunk(type: string, data: Buffer): Buffer {
  const named = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const [length, check] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(data.length);
  check.writeUInt32BE(crc32(named));
  return Buffer.concat([length, named, check]);
}

function pixel(x: number, y: number, size: number): readonly number[] {
  let [ground, wall] = [0, 0];
  for (let i = 0; i < SAMPLES * SAMPLES; i += 1) {
    const across = ((x + ((i % SAMPLES) + 0.5) / SAMPLES) * GRID) / size;
    const down = ((y + (Math.floor(i / SAMPLES) + 0.5) / SAMPLES) * GRID) / size;
    if (isOutside(across, down)) continue;
    if (isWall(across, down)) wall += 1;
    else ground += 1;
  }
  const covered = ground + wall;
  if (covered === 0) return [0, 0, 0, 0];
  const colour = GROUND.map((channel, index) => Math.round((channel * ground + (WALL[index] ?? 0) * wall) / covered));
  return [...colour, Math.round((255 * covered) / (SAMPLES * SAMPLES))];
}

function isOutside(across: number, down: number): boolean {
  const dx = Math.max(CORNER - across, across - (GRID - CORNER), 0);
  const dy = Math.max(CORNER - down, down - (GRID - CORNER), 0);
  return dx * dx + dy * dy > CORNER * CORNER;
}

function isWall(across: number, down: number): boolean {
  if (down < TOP || down > BOTTOM) return false;
  const fromSide = Math.min(across, GRID - across);
  const swell = 0.5 - 0.5 * Math.cos((2 * Math.PI * (down - TOP)) / (BOTTOM - TOP));
  return fromSide >= OUTER && fromSide <= WIDE + (NARROW - WIDE) * swell;
}
