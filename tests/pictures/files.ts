// Pictures of 16 x 12 pixels, made with ImageMagick 6 (`convert -size 16x12 gradient:red-blue`), and what cameras and
// attackers add to them.
import { crc32 } from "node:zlib";

const of = (text: string) => Buffer.from(text, "base64");

export const BASELINE = of(
  "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDAAYEBQYFBAYGBQYHBwYIChAKCgkJChQODwwQFxQYGBcUFhYaHSUfGhsjHBYWICwgIyYnKSopGR8tMC0oMCUoKSj/2wBDAQcHBwoIChMKChMoGhYaKCgoKCgoKCgoKCgoKCgoKCgoKCgoKCgoKCgoKCgoKCgoKCgoKCgoKCgoKCgoKCgoKCj/wAARCAAMABADASIAAhEBAxEB/8QAFgABAQEAAAAAAAAAAAAAAAAAAAYH/8QAGRAAAQUAAAAAAAAAAAAAAAAAAAITFVFh/8QAFQEBAQAAAAAAAAAAAAAAAAAABgf/xAAXEQADAQAAAAAAAAAAAAAAAAAABBZh/9oADAMBAAIRAxEAPwDJpDRIaTDy7Dy7KNAK4KrdjT//2Q==",
);
export const PROGRESSIVE = of(
  "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDAAMCAgICAgMCAgIDAwMDBAYEBAQEBAgGBgUGCQgKCgkICQkKDA8MCgsOCwkJDRENDg8QEBEQCgwSExIQEw8QEBD/2wBDAQMDAwQDBAgEBAgQCwkLEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBAQEBD/wgARCAAMABADAREAAhEBAxEB/8QAFgABAQEAAAAAAAAAAAAAAAAAAAYH/8QAFwEBAQEBAAAAAAAAAAAAAAAAAAcECP/aAAwDAQACEAMQAAABybfaxMdFwUf/xAAXEAEAAwAAAAAAAAAAAAAAAAAAAhMU/9oACAEBAAEFAtLSsksk/8QAGREAAQUAAAAAAAAAAAAAAAAAAAMVFlFh/9oACAEDAQE/AZTpKdHBexwXs//EABkRAAEFAAAAAAAAAAAAAAAAAAAEFRZRYv/aAAgBAgEBPwGIZIhkbU9Dano//8QAFRABAQAAAAAAAAAAAAAAAAAAADH/2gAIAQEABj8Cqqr/xAAUEAEAAAAAAAAAAAAAAAAAAAAg/9oACAEBAAE/IRSX/9oADAMBAAIAAwAAABAC3//EABcRAAMBAAAAAAAAAAAAAAAAAAAR8BD/2gAIAQMBAT8Qlkvf/wD/xAAUEQEAAAAAAAAAAAAAAAAAAAAg/9oACAECAQE/EAH/AP/EABcQAAMBAAAAAAAAAAAAAAAAAABxkRD/2gAIAQEAAT8QVRV0D//Z",
);
export const PNG = of(
  "iVBORw0KGgoAAAANSUhEUgAAABAAAAAMEAIAAAC0FXaVAAAANklEQVQ4y2P8/5+BpoDl5S4GBnE3Wlqwm4FB3HUo++DFLgYGCbfROBiNg8EcB4wMDAwMtCwuAEciGCfkflZmAAAAAElFTkSuQmCC",
);
export const INTERLACED = of(
  "iVBORw0KGgoAAAANSUhEUgAAABAAAAAMEAIAAAHDEkYDAAAAjElEQVQ4y7WT0QmEQAxE34I9bBdrFdqFXaxVeFV4VWgXuSrWKvRHDkUGLnD7/kKYDDOQsO98CZ3Bms5Bb+YCQ+TBTXKleW9Ccb17W1iGNPEz0kIRYg9lcQhUOinwZpDFytCf0emg+v5fS2WB2Pua8hDWBJ3VM2gsQ/uqmGCIMJeKBmkCyxUNALzv4OEAjpEt/p7bZKMAAAAASUVORK5CYII=",
);
export const LOSSY = of(
  "UklGRk4AAABXRUJQVlA4IEIAAABwAgCdASoQAAwAAoBCJbACdGvA/qtx/geiAVrwAP7w8cQluxF81PK///YRUCd/3PLrKv/pPpH/+J9HURxzLWrXgAA=",
);
export const LOSSLESS = of(
  "UklGRk4AAABXRUJQVlA4TEEAAAAvD8ACAF8AEIT/bRMCgRRu0QKBxN/0KJ7/1AEc6AAAIW07mcIUpjCFFFJIIYUUUkghvusQ0f/8PC6HzWIyaIokAAA=",
);
export const TRANSPARENT = of(
  "UklGRoYAAABXRUJQVlA4WAoAAAAQAAAADwAACwAAQUxQSDEAAAABX0CQbXOLzl/1EhGRIw8gpG0nU5jCFKaQQgoppJBCCinEdx0i+p+fx+WwWUwGTZEEAFZQOCAuAAAA0AEAnQEqEAAMAAKAQiWgAnS6AfgAA7AA/u921/4VbhiGar/72C+7Bfdgv9bAAA==",
);

/** A place in the text of what was added: 52.5 degrees north, and the camera's owner. */
export const SECRET = "N52.5 E13.4 owner Ida";

/** Returns an Exif block with the GPS position 52.5 N (Exif 2.32, tags 0x8825, 1 and 2) and the artist's name (0x013b). */
export function exif(): Buffer {
  const tiff = Buffer.alloc(128);
  tiff.write("MM\0*", 0, "latin1");
  tiff.writeUInt32BE(8, 4);
  tiff.writeUInt16BE(2, 8);
  entry(tiff, 10, 0x013b, 2, SECRET.length + 1, 86);
  entry(tiff, 22, 0x8825, 4, 1, 38);
  tiff.writeUInt16BE(2, 38);
  entry(tiff, 40, 1, 2, 2, 0x4e000000);
  entry(tiff, 52, 2, 5, 3, 62);
  for (const [i, value] of [52, 1, 30, 1, 0, 1].entries()) tiff.writeUInt32BE(value, 62 + 4 * i);
  tiff.write(SECRET, 86, "latin1");
  return tiff;
}

function entry(tiff: Buffer, at: number, tag: number, type: number, count: number, value: number): void {
  tiff.writeUInt16BE(tag, at);
  tiff.writeUInt16BE(type, at + 2);
  tiff.writeUInt32BE(count, at + 4);
  tiff.writeUInt32BE(value, at + 8);
}

/** Returns a segment of a JPEG. */
export function segment(marker: number, body: Buffer): Buffer {
  const head = Buffer.from([0xff, marker, 0, 0]);
  head.writeUInt16BE(body.length + 2, 2);
  return Buffer.concat([head, body]);
}

/** Returns a JPEG with more segments after its first marker. */
export const withSegments = (jpeg: Buffer, ...segments: Buffer[]): Buffer =>
  Buffer.concat([jpeg.subarray(0, 2), ...segments, jpeg.subarray(2)]);

/** Returns a JPEG as a telephone writes it: Exif with GPS, XMP, a colour profile, a comment, and bytes after its end. */
export const fromTelephone = (jpeg: Buffer): Buffer =>
  Buffer.concat([
    withSegments(
      jpeg,
      segment(0xe1, Buffer.concat([Buffer.from("Exif\0\0"), exif()])),
      segment(0xe1, Buffer.from(`http://ns.adobe.com/xap/1.0/\0<x:xmpmeta>${SECRET}</x:xmpmeta>`)),
      segment(0xe2, Buffer.from(`ICC_PROFILE\0\u0001\u0001${SECRET}`)),
      segment(0xed, Buffer.from(`Photoshop 3.0\0${SECRET}`)),
      segment(0xfe, Buffer.from(SECRET)),
    ),
    Buffer.from(SECRET),
  ]);

/** Returns a chunk of a PNG. */
export function pngChunk(name: string, body: Buffer): Buffer {
  const named = Buffer.concat([Buffer.from(name, "latin1"), body]);
  const ends = Buffer.alloc(8);
  ends.writeUInt32BE(body.length, 0);
  ends.writeUInt32BE(crc32(named), 4);
  return Buffer.concat([ends.subarray(0, 4), named, ends.subarray(4)]);
}

/** Bytes of a PNG's signature and header. */
export const PNG_HEAD = 33;

export const withChunks = (png: Buffer, ...chunks: Buffer[]): Buffer =>
  Buffer.concat([png.subarray(0, PNG_HEAD), ...chunks, png.subarray(PNG_HEAD)]);

/** Returns a WebP with more chunks at its end. */
export function withRiff(webp: Buffer, ...chunks: [name: string, body: Buffer][]): Buffer {
  const parts = chunks.map(([name, body]) => {
    const head = Buffer.alloc(8);
    head.write(name, "latin1");
    head.writeUInt32LE(body.length, 4);
    return Buffer.concat([head, body, Buffer.alloc(body.length % 2)]);
  });
  const whole = Buffer.concat([webp, ...parts]);
  whole.writeUInt32LE(whole.length - 8, 4);
  return whole;
}
