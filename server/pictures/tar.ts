import { promisify } from "node:util";
import { pack } from "tar-stream";

/** One file of an archive. */
export interface TarFile {
  name: string;
  /** Server milliseconds. */
  at: number;
  bytes: Uint8Array;
}

/**
 * Returns the bytes of an archive of files (POSIX.1-2017, pax, "ustar Interchange Format"). The archive breaks off with
 * an error if a file cannot be read.
 */
export function tarOf(files: AsyncIterable<TarFile>): AsyncIterable<unknown> {
  const archive = pack();
  const add = async () => {
    const entry = promisify(
      (head: { name: string; mtime: Date }, bytes: Buffer, done: (e?: Error | null) => void) =>
        archive.entry(head, bytes, done),
    );
    for await (const { name, at, bytes } of files)
      await entry(
        { name, mtime: new Date(at) },
        Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength),
      );
    archive.finalize();
  };
  add().catch((error: Error) => archive.destroy(error));
  return archive;
}
