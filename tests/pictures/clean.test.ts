import { deflateSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import { cleanPicture } from "../../server/pictures/clean.ts";
import {
  BASELINE,
  exif,
  fromTelephone,
  INTERLACED,
  LOSSLESS,
  LOSSY,
  PNG,
  PNG_HEAD,
  PROGRESSIVE,
  pngChunk,
  SECRET,
  segment,
  TRANSPARENT,
  withChunks,
  withRiff,
  withSegments,
} from "./files.ts";

const clean = async (file: Uint8Array) => {
  const found = await cleanPicture(file);
  return found.ok ? found : { ...found, bytes: Buffer.alloc(0) };
};
const faultOf = async (file: Uint8Array) => {
  const found = await cleanPicture(file);
  return found.ok ? null : found.fault;
};
const text = (bytes: Uint8Array) => Buffer.from(bytes).toString("latin1");

/** The JFIF header, which ImageMagick writes first, is not needed. */
const bare = (jpeg: Buffer) => Buffer.concat([jpeg.subarray(0, 2), jpeg.subarray(20)]);

describe("what is kept of a picture", () => {
  it.each([
    ["a baseline JPEG", BASELINE, "image/jpeg", bare(BASELINE)],
    ["a progressive JPEG", PROGRESSIVE, "image/jpeg", bare(PROGRESSIVE)],
    ["a PNG", PNG, "image/png", PNG],
    ["an interlaced PNG", INTERLACED, "image/png", INTERLACED],
    ["a lossy WebP", LOSSY, "image/webp", LOSSY],
    ["a lossless WebP", LOSSLESS, "image/webp", LOSSLESS],
    ["a transparent WebP", TRANSPARENT, "image/webp", TRANSPARENT],
  ])("[DEF-9] %s keeps every byte of its pixels", async (_what, file, media, kept) => {
    const found = await cleanPicture(file);
    expect(found).toMatchObject({ ok: true, media, width: 16, height: 12 });
    expect(found.ok && Buffer.from(found.bytes).equals(kept)).toBe(true);
  });

  it("[DEF-9] a telephone's JPEG loses position, owner, XMP, profile, comments and what is after its end", async () => {
    for (const jpeg of [BASELINE, PROGRESSIVE]) {
      const sent = fromTelephone(jpeg);
      expect(text(sent).split(SECRET)).toHaveLength(7);
      const { bytes } = await clean(sent);
      expect(Buffer.from(bytes).equals(bare(jpeg))).toBe(true);
      for (const word of [SECRET, "Exif", "xap", "ICC_PROFILE", "Photoshop", "JFIF"])
        expect(text(bytes)).not.toContain(word);
    }
  });

  it("[DEF-9] a PNG loses its texts, Exif, time and profile; a WebP its Exif, XMP and profile", async () => {
    const chunks = ["tEXt", "iTXt", "zTXt", "tIME", "iCCP", "eXIf", "acTL", "prVt"];
    const png = withChunks(PNG, ...chunks.map((name) => pngChunk(name, Buffer.from(SECRET))));
    const sent = Buffer.concat([png, Buffer.from(SECRET)]);
    expect(Buffer.from((await clean(sent)).bytes).equals(PNG)).toBe(true);
    for (const webp of [LOSSY, LOSSLESS, TRANSPARENT]) {
      const more = withRiff(
        webp,
        ["EXIF", exif()],
        ["XMP ", Buffer.from(SECRET)],
        ["ICCP", Buffer.from(SECRET)],
      );
      expect(Buffer.from((await clean(Buffer.concat([more, exif()]))).bytes).equals(webp)).toBe(true);
    }
  });

  it("[DEF-9] cleaned again, it is the same", async () => {
    for (const file of [fromTelephone(BASELINE), PROGRESSIVE, INTERLACED, TRANSPARENT]) {
      const { bytes } = await clean(file);
      expect(Buffer.from((await clean(bytes)).bytes).equals(Buffer.from(bytes))).toBe(true);
    }
  });
});

describe("what is not taken as a picture", () => {
  it("[DEF-9] other files, whatever their name says", async () => {
    const files = [
      "",
      "<svg xmlns='http://www.w3.org/2000/svg' onload='alert(1)'/>",
      "<!doctype html><script>alert(1)</script>",
      "GIF89a",
      "%PDF-1.7",
      "PK\u0003\u0004",
      "RIFF\u0010\0\0\0WAVEfmt ",
      "BM",
    ];
    for (const file of files) expect(await faultOf(Buffer.from(file, "latin1"))).toBe("notPicture");
  });

  it("[DEF-9] one that is cut off, at whatever byte", async () => {
    for (const file of [BASELINE, PROGRESSIVE, PNG, INTERLACED, LOSSY, LOSSLESS, TRANSPARENT])
      for (let length = 0; length < file.length; length += 1)
        expect(await faultOf(file.subarray(0, length))).not.toBeNull();
  });

  it("[DEF-9] keeps nothing of a second file that hides in it or behind it", async () => {
    const script = Buffer.from("<script>alert(1)</script>");
    const zip = Buffer.from("PK\u0003\u0004payload", "latin1");
    const polyglots = [
      Buffer.concat([withSegments(BASELINE, segment(0xfe, script)), zip]),
      Buffer.concat([withChunks(PNG, pngChunk("tEXt", script)), zip]),
      Buffer.concat([withRiff(LOSSY, ["JUNK", script]), zip]),
    ];
    for (const file of polyglots) {
      const { bytes } = await clean(file);
      expect(bytes.length).toBeGreaterThan(0);
      for (const word of ["script", "PK"]) expect(text(bytes)).not.toContain(word);
    }
    // A table that is longer than what it holds, and pixels with bytes after them.
    const longTable = segment(0xdb, Buffer.concat([Buffer.alloc(65), script]));
    expect(await faultOf(withSegments(BASELINE, longTable))).toBe("unusual");
    const pixels = PNG.subarray(PNG_HEAD + 8, PNG.length - 16);
    const longer = pngChunk("IDAT", Buffer.concat([pixels, zip]));
    expect(await faultOf(Buffer.concat([PNG.subarray(0, PNG_HEAD), longer, PNG.subarray(-12)]))).toBe(
      "damaged",
    );
  });

  it("[DEF-9] more pixels than a browser should hold, although the file is small", async () => {
    const head = (width: number, height: number) => {
      const body = Buffer.alloc(13);
      body.writeUInt32BE(width, 0);
      body.writeUInt32BE(height, 4);
      body.set([8, 2, 0, 0, 0], 8);
      return pngChunk("IHDR", body);
    };
    const png = (width: number, height: number, raw: Buffer) =>
      Buffer.concat([
        PNG.subarray(0, 8),
        head(width, height),
        pngChunk("IDAT", deflateSync(raw)),
        pngChunk("IEND", Buffer.alloc(0)),
      ]);
    expect(await faultOf(png(50_000, 50_000, Buffer.alloc(1)))).toBe("tooManyPixels");
    expect(await faultOf(png(1, 100_000, Buffer.alloc(1)))).toBe("tooManyPixels");
    // A bomb: 16 x 12 pixels by its header, and 100 million bytes when inflated.
    expect(await faultOf(png(16, 12, Buffer.alloc(100_000_000)))).toBe("damaged");
    expect(await faultOf(png(16, 12, Buffer.alloc(12 * 49)))).toBeNull();
    const jpeg = Buffer.from(BASELINE);
    const frame = jpeg.indexOf(Buffer.from([0xff, 0xc0]));
    jpeg.writeUInt16BE(65_500, frame + 5);
    jpeg.writeUInt16BE(65_500, frame + 7);
    expect(await faultOf(jpeg)).toBe("tooManyPixels");
  });

  it("[DEF-9] moving pictures, and forms that few browsers show", async () => {
    expect(await faultOf(withRiff(LOSSY, ["ANIM", Buffer.alloc(6)]))).toBe("animated");
    const arithmetic = Buffer.from(BASELINE);
    arithmetic[arithmetic.indexOf(Buffer.from([0xff, 0xc0])) + 1] = 0xc9;
    expect(await faultOf(arithmetic)).toBe("unusual");
    const many = Buffer.concat([
      BASELINE.subarray(0, -2),
      ...Array.from({ length: 70 }, () => BASELINE.subarray(BASELINE.indexOf(Buffer.from([0xff, 0xda])), -2)),
      BASELINE.subarray(-2),
    ]);
    expect(await faultOf(many)).toBe("unusual");
    const wrongSum = Buffer.from(PNG);
    wrongSum.writeUInt8(wrongSum.readUInt8(PNG_HEAD - 1) ^ 1, PNG_HEAD - 1);
    expect(await faultOf(wrongSum)).toBe("damaged");
  });
});
