import { bad, type Cleaned, isShowable } from "./cleaned.ts";

// Markers of ITU-T T.81, table B.1.
const SOI = 0xd8;
const EOI = 0xd9;
const SOS = 0xda;
const DQT = 0xdb;
const DRI = 0xdd;
const DHT = 0xc4;
/** Baseline, extended and progressive frames in Huffman coding: what browsers show. */
const FRAMES: readonly number[] = [0xc0, 0xc1, 0xc2];
/** APP14 of Adobe, by which a decoder knows how the colours are coded. It says nothing else. */
const ADOBE = 0xee;
const ADOBE_LENGTH = 14;
/** Scans that a progressive picture may have. Ordinary ones have about ten; each costs the reader time. */
const MOST_SCANS = 64;

/**
 * Returns the JPEG with its frame, tables and scans alone: without Exif, XMP, comments, colour profiles, thumbnails, and
 * anything after its end.
 */
export function cleanJpeg(b: Uint8Array): Cleaned {
  const view = new DataView(b.buffer, b.byteOffset, b.byteLength);
  const kept: Uint8Array[] = [Uint8Array.of(0xff, SOI)];
  let size: { width: number; height: number } | null = null;
  let scans = 0;
  let at = 2;
  for (;;) {
    if (at >= b.length) return bad("truncated");
    if (b[at] !== 0xff) return bad("damaged");
    while (b[at] === 0xff) at += 1;
    const marker = b[at];
    if (marker === undefined) return bad("truncated");
    at += 1;
    if (marker === EOI) break;
    if (marker === 0 || marker === 1 || (marker >= 0xd0 && marker <= SOI)) return bad("damaged");
    if (at + 2 > b.length) return bad("truncated");
    const length = view.getUint16(at);
    const end = at + length;
    if (length < 2) return bad("damaged");
    if (end > b.length) return bad("truncated");
    const segment = b.subarray(at, end);
    at = end;
    if (isApplication(marker)) {
      if (marker === ADOBE && isAdobe(segment)) kept.push(Uint8Array.of(0xff, marker), segment);
      continue;
    }
    if (FRAMES.includes(marker)) {
      if (size) return bad("damaged");
      const read = frameOf(segment);
      if (!read) return bad("unusual");
      size = read;
    } else if (marker === SOS) {
      scans += 1;
      if (!size || segment.length !== 6 + 2 * (segment[2] ?? 0)) return bad("damaged");
      if (scans > MOST_SCANS) return bad("unusual");
      at = scanEnd(b, at);
    } else if (!isTable(marker, segment)) return bad("unusual");
    kept.push(Uint8Array.of(0xff, marker), b.subarray(end - length, at));
  }
  if (!size || scans === 0) return bad("damaged");
  if (!isShowable(size.width, size.height)) return bad("tooManyPixels");
  kept.push(Uint8Array.of(0xff, EOI));
  return { ok: true, media: "image/jpeg", ...size, bytes: Buffer.concat(kept) };
}

/** APP0 to APP15, and comments. */
const isApplication = (marker: number): boolean => (marker >= 0xe0 && marker <= 0xef) || marker === 0xfe;

const isAdobe = (segment: Uint8Array): boolean =>
  segment.length === ADOBE_LENGTH && Buffer.from(segment.subarray(2, 7)).toString("latin1") === "Adobe";

/** Returns the size of a grey or three-coloured frame of 8 bits; null for any other. */
function frameOf(segment: Uint8Array): { width: number; height: number } | null {
  const view = new DataView(segment.buffer, segment.byteOffset, segment.byteLength);
  if (segment.length < 8) return null;
  const colours = segment[7] ?? 0;
  if (segment[2] !== 8 || (colours !== 1 && colours !== 3) || segment.length !== 8 + 3 * colours) return null;
  const height = view.getUint16(3);
  const width = view.getUint16(5);
  return width > 0 && height > 0 ? { width, height } : null;
}

/** Returns true for a table that is as long as what it holds, so that nothing else hides in it. */
function isTable(marker: number, segment: Uint8Array): boolean {
  if (marker === DRI) return segment.length === 4;
  if (marker !== DQT && marker !== DHT) return false;
  let at = 2;
  while (at < segment.length) {
    const head = segment[at] ?? 0;
    if (marker === DQT) at += 1 + (head >> 4 === 0 ? 64 : 128);
    else {
      const counts = segment.subarray(at + 1, at + 17);
      at += 17 + counts.reduce((sum, n) => sum + n, 0);
    }
  }
  return at === segment.length;
}

/** Returns the place of the marker that ends the scan's coded data. */
function scanEnd(b: Uint8Array, from: number): number {
  for (let at = from; ; at += 2) {
    at = b.indexOf(0xff, at);
    if (at < 0) return b.length;
    const next = b[at + 1];
    if (next === undefined) return b.length;
    const isCoded = next === 0 || (next >= 0xd0 && next <= 0xd7);
    if (!isCoded) return at;
  }
}
