import { bad, type Cleaned } from "./cleaned.ts";
import { cleanJpeg } from "./jpeg.ts";
import { cleanPng } from "./png.ts";
import { cleanWebp } from "./webp.ts";

const PNG = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
const JPEG = Buffer.from([0xff, 0xd8, 0xff]);

/**
 * Returns the picture with what is needed to show it and nothing else. Its form is known by its first bytes: names and
 * content types are not looked at. Nothing is decoded but a PNG's deflate stream, which is counted and thrown away.
 */
export async function cleanPicture(bytes: Uint8Array): Promise<Cleaned> {
  const b = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (b.subarray(0, JPEG.length).equals(JPEG)) return cleanJpeg(b);
  if (b.subarray(0, PNG.length).equals(PNG)) return cleanPng(b);
  if (b.toString("latin1", 0, 4) === "RIFF" && b.toString("latin1", 8, 12) === "WEBP") return cleanWebp(b);
  return bad("notPicture");
}
