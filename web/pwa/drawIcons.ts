import { deflateSync } from "node:zlib";

/** The mark as strokes in a square of 32 by 32 units: a wheel and its two chocks on the ground line. */
export const MARK = {
  lines: [
    [3, 24, 29, 24],
    [6, 24, 13, 15],
    [13, 15, 13, 24],
    [26, 24, 19, 15],
    [19, 15, 19, 24],
  ],
  circle: { x: 16, y: 12, r: 7 },
  width: 2,
  ink: [0x10, 0x16, 0x1c],
  paper: [0xf7, 0xf6, 0xf1],
} as const;

const SIDE = 32;

/** Returns the mark as a square PNG of `size` pixels. `inset` is the share of the side left empty on each edge. */
export function drawIcon(size: number, inset: number): Buffer {
  const scale = SIDE / (size * (1 - 2 * inset));
  const rows: Buffer[] = [];
  for (let py = 0; py < size; py += 1) {
    const row = Buffer.alloc(1 + size * 3);
    for (let px = 0; px < size; px += 1) {
      const x = (px + 0.5 - size * inset) * scale;
      const y = (py + 0.5 - size * inset) * scale;
      // Share of the pixel that the stroke covers, for an edge one pixel soft.
      const cover = Math.min(1, Math.max(0, (MARK.width / 2 - distance(x, y)) / scale + 0.5));
      for (let c = 0; c < 3; c += 1) {
        const ink = MARK.ink[c] ?? 0;
        const paper = MARK.paper[c] ?? 0;
        row[1 + px * 3 + c] = Math.round(paper + (ink - paper) * cover);
      }
    }
    rows.push(row);
  }
  return png(size, Buffer.concat(rows));
}

/** Returns the distance from a point to the middle line of the nearest stroke. */
function distance(x: number, y: number): number {
  const { circle, lines } = MARK;
  const round = Math.abs(Math.hypot(x - circle.x, y - circle.y) - circle.r);
  return lines.reduce((least, [ax, ay, bx, by]) => {
    const [dx, dy] = [bx - ax, by - ay];
    const along = Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)));
    return Math.min(least, Math.hypot(x - ax - along * dx, y - ay - along * dy));
  }, round);
}

/**
 * Returns a PNG in 8-bit RGB without interlace (W3C PNG, third edition, sections 5 and 11). Each of `rows` starts
 * with its filter byte.
 */
function png(size: number, rows: Buffer): Buffer {
  const header = Buffer.alloc(13);
  header.writeUInt32BE(size, 0);
  header.writeUInt32BE(size, 4);
  header.set([8, 2, 0, 0, 0], 8);
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return Buffer.concat([
    signature,
    chunk("IHDR", header),
    chunk("IDAT", deflateSync(rows, { level: 9 })),
    chunk("IEND", Buffer.alloc(0)),
  ]);
}

function chunk(type: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(type, "latin1"), data]);
  const out = Buffer.alloc(body.length + 8);
  out.writeUInt32BE(data.length, 0);
  body.copy(out, 4);
  out.writeUInt32BE(crc32(body), body.length + 4);
  return out;
}

/** Returns the CRC-32 of W3C PNG, annex D. */
function crc32(bytes: Buffer): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let i = 0; i < 8; i += 1) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return (crc ^ 0xffffffff) >>> 0;
}
