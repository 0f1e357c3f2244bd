const BLOCK = 512;

/** One file of an archive. */
export interface TarFile {
  /** At most 100 bytes of ASCII. */
  name: string;
  /** Server milliseconds. */
  at: number;
  bytes: Uint8Array;
}

/** Yields an archive of files (POSIX.1-2017, pax, "ustar Interchange Format"). */
export async function* tarOf(files: AsyncIterable<TarFile>): AsyncGenerator<Buffer> {
  for await (const { name, at, bytes } of files) {
    yield header(name, bytes.length, Math.floor(at / 1000));
    yield Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    yield Buffer.alloc((BLOCK - (bytes.length % BLOCK)) % BLOCK);
  }
  yield Buffer.alloc(2 * BLOCK);
}

function header(name: string, size: number, seconds: number): Buffer {
  const head = Buffer.alloc(BLOCK);
  const octal = (value: number, at: number, digits: number) =>
    head.write(`${value.toString(8).padStart(digits, "0")}\0`, at, "latin1");
  head.write(name, 0, 100, "latin1");
  octal(0o644, 100, 7);
  octal(0, 108, 7);
  octal(0, 116, 7);
  octal(size, 124, 11);
  octal(seconds, 136, 11);
  head.write("0", 156, "latin1");
  head.write("ustar\u000000", 257, "latin1");
  // The sum is made with spaces in its own place.
  head.fill(" ", 148, 156);
  const sum = head.reduce((total, byte) => total + byte, 0);
  head.write(`${sum.toString(8).padStart(6, "0")}\0 `, 148, "latin1");
  return head;
}
