import { bad, type Cleaned, isShowable } from "./cleaned.ts";

// RFC 9649: the container, and the first bytes of a lossy (section 2.4) and of a lossless picture (section 3.4).
const ALPHA_FLAG = 0x10;

/** Returns the WebP with its picture alone: without Exif, XMP, colour profile, unknown chunks, and anything after it. */
export function cleanWebp(bytes: Uint8Array): Cleaned {
  const b = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (b.length < 12) return bad("truncated");
  const end = 8 + b.readUInt32LE(4);
  if (end > b.length) return bad("truncated");
  const found = new Map<string, Buffer>();
  for (let at = 12; at < end; ) {
    if (at + 8 > end) return bad("damaged");
    const name = b.toString("latin1", at, at + 4);
    const length = b.readUInt32LE(at + 4);
    if (at + 8 + length > end) return bad("truncated");
    if (name === "ANIM" || name === "ANMF") return bad("animated");
    if (name === "VP8 " || name === "VP8L" || name === "ALPH") {
      if (found.has(name)) return bad("damaged");
      found.set(name, b.subarray(at + 8, at + 8 + length));
    }
    at += 8 + length + (length % 2);
  }
  const [lossy, lossless, alpha] = [found.get("VP8 "), found.get("VP8L"), found.get("ALPH")];
  if (lossy && lossless) return bad("damaged");
  const size = lossy ? lossySize(lossy) : lossless ? losslessSize(lossless) : null;
  if (!size) return bad("damaged");
  if (!isShowable(size.width, size.height)) return bad("tooManyPixels");
  const picture = lossy ? chunk("VP8 ", lossy) : chunk("VP8L", lossless as Buffer);
  // A lossless picture holds its transparency itself.
  const parts = lossy && alpha ? [extended(size), chunk("ALPH", alpha), picture] : [picture];
  const body = Buffer.concat([Buffer.from("WEBP"), ...parts]);
  return { ok: true, media: "image/webp", ...size, bytes: chunk("RIFF", body) };
}

interface Size {
  width: number;
  height: number;
}

/** Returns the size of a key frame (RFC 6386 section 9.1); null when it is none, or is cut. */
function lossySize(data: Buffer): Size | null {
  if (data.length < 10 || data.readUIntBE(3, 3) !== 0x9d012a) return null;
  const tag = data.readUIntLE(0, 3);
  const isKey = (tag & 1) === 0;
  const firstPart = tag >> 5;
  const width = data.readUInt16LE(6) & 0x3fff;
  const height = data.readUInt16LE(8) & 0x3fff;
  return isKey && firstPart <= data.length - 10 && width > 0 && height > 0 ? { width, height } : null;
}

function losslessSize(data: Buffer): Size | null {
  if (data.length < 5 || data[0] !== 0x2f) return null;
  const bits = data.readUInt32LE(1);
  return { width: 1 + (bits & 0x3fff), height: 1 + ((bits >>> 14) & 0x3fff) };
}

function extended({ width, height }: Size): Buffer {
  const body = Buffer.alloc(10);
  body[0] = ALPHA_FLAG;
  body.writeUIntLE(width - 1, 4, 3);
  body.writeUIntLE(height - 1, 7, 3);
  return chunk("VP8X", body);
}

function chunk(name: string, body: Buffer): Buffer {
  const head = Buffer.alloc(8);
  head.write(name, "latin1");
  head.writeUInt32LE(body.length, 4);
  return Buffer.concat([head, body, Buffer.alloc(body.length % 2)]);
}
