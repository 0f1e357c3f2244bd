import { crc32, createInflate } from "node:zlib";
import { bad, type Cleaned, isShowable } from "./cleaned.ts";

const SIGNATURE_BYTES = 8;
/** The chunks that are needed to show a still picture (PNG specification, third edition, section 11). */
const NEEDED: readonly string[] = ["IHDR", "PLTE", "tRNS", "IDAT", "IEND"];
/** Samples of a pixel, and the allowed bits of a sample, by colour type (section 11.2.1). */
const COLOURS: Readonly<Record<number, { samples: number; bits: readonly number[] }>> = {
  0: { samples: 1, bits: [1, 2, 4, 8, 16] },
  2: { samples: 3, bits: [8, 16] },
  3: { samples: 1, bits: [1, 2, 4, 8] },
  4: { samples: 2, bits: [8, 16] },
  6: { samples: 4, bits: [8, 16] },
};
/** First column and row, and the steps between them, of the seven passes of interlacing (section 8.1). */
const PASSES = [
  [0, 0, 8, 8],
  [4, 0, 8, 8],
  [0, 4, 4, 8],
  [2, 0, 4, 4],
  [0, 2, 2, 4],
  [1, 0, 2, 2],
  [0, 1, 1, 2],
] as const;

/**
 * Returns the PNG with its header, palette, transparency and pixels alone: without text, Exif, times, colour profiles,
 * further frames, and anything after its end. Its pixels are inflated to see that they are as many as the header says.
 */
export async function cleanPng(bytes: Uint8Array): Promise<Cleaned> {
  const b = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const kept: Buffer[] = [b.subarray(0, SIGNATURE_BYTES)];
  const pixels: Buffer[] = [];
  let head: Head | null = null;
  let last = "";
  for (let at = SIGNATURE_BYTES; last !== "IEND"; ) {
    if (at + 12 > b.length) return bad("truncated");
    const length = b.readUInt32BE(at);
    const name = b.toString("latin1", at + 4, at + 8);
    const end = at + 12 + length;
    if (end > b.length) return bad("truncated");
    if ((head === null) !== (name === "IHDR")) return bad("damaged");
    const data = b.subarray(at + 8, end - 4);
    if (NEEDED.includes(name)) {
      if (crc32(b.subarray(at + 4, end - 4)) !== b.readUInt32BE(end - 4)) return bad("damaged");
      if (name === "IHDR") head = headOf(data);
      if (!head || !fits(name, data)) return bad("damaged");
      if (name === "IDAT") {
        // The pixels are one row of chunks.
        if (pixels.length > 0 && last !== "IDAT") return bad("damaged");
        pixels.push(data);
      }
      kept.push(b.subarray(at, end));
    } else if (isCritical(name)) return bad("unusual");
    last = name;
    at = end;
  }
  if (!head) return bad("damaged");
  if (!isShowable(head.width, head.height)) return bad("tooManyPixels");
  if (!(await inflatesTo(Buffer.concat(pixels), rawBytes(head)))) return bad("damaged");
  const { width, height } = head;
  return { ok: true, media: "image/png", width, height, bytes: Buffer.concat(kept) };
}

interface Head {
  width: number;
  height: number;
  /** Of a pixel. */
  bits: number;
  interlaced: boolean;
}

function headOf(data: Buffer): Head | null {
  if (data.length !== 13) return null;
  const [depth, colour, packing, filter, interlace] = data.subarray(8);
  const kind = COLOURS[colour ?? -1];
  if (!kind?.bits.includes(depth ?? 0) || packing !== 0 || filter !== 0) return null;
  if (interlace !== 0 && interlace !== 1) return null;
  const [width, height] = [data.readUInt32BE(0), data.readUInt32BE(4)];
  if (width === 0 || height === 0) return null;
  return { width, height, bits: kind.samples * (depth ?? 0), interlaced: interlace === 1 };
}

/** Returns false for a chunk that is longer than what it may hold. */
function fits(name: string, data: Buffer): boolean {
  if (name === "PLTE") return data.length % 3 === 0 && data.length <= 768;
  if (name === "tRNS") return data.length <= 256;
  return name !== "IEND" || data.length === 0;
}

/** A chunk that a reader must know begins with a capital letter (section 5.4). */
const isCritical = (name: string): boolean => /^[A-Z]/.test(name);

/** Returns the bytes that the pixels inflate to: each line has its filter before it. */
function rawBytes({ width, height, bits, interlaced }: Head): number {
  const of = (columns: number, rows: number) =>
    columns === 0 ? 0 : rows * (1 + Math.ceil((columns * bits) / 8));
  if (!interlaced) return of(width, height);
  return PASSES.reduce(
    (sum, [x, y, dx, dy]) =>
      sum + of(Math.max(0, Math.ceil((width - x) / dx)), Math.max(0, Math.ceil((height - y) / dy))),
    0,
  );
}

/** Resolves to true when the data inflates to just so many bytes, with nothing after it. Holds none of them. */
function inflatesTo(data: Buffer, expected: number): Promise<boolean> {
  return new Promise((resolve) => {
    const inflate = createInflate();
    let count = 0;
    const end = (good: boolean) => {
      inflate.destroy();
      resolve(good);
    };
    inflate.on("data", (part: Buffer) => {
      count += part.length;
      if (count > expected) end(false);
    });
    inflate.on("error", () => end(false));
    inflate.on("end", () => end(count === expected && inflate.bytesWritten === data.length));
    inflate.end(data);
  });
}
