// npm run verify -- <file> [--key <hex>]… [--checkpoint <file>]…: checks an exported record. The exit code is 1 when
// it was changed, 2 when it cannot be read, and 3 when it is whole but nothing kept elsewhere vouches for it.
import { readFileSync } from "node:fs";
import { parseArgs } from "node:util";
import { checkFile } from "./check-file.ts";

const UNVOUCHED = 3;
const USAGE = `usage: npm run verify -- <exported file> [--key <public key>] [--checkpoint <file>]
  --key         a public key noted elsewhere: no other key may have signed; may be given again
  --checkpoint  a checkpoint kept elsewhere: the record must continue it; may be given again`;

/** @throws on invalid UTF-8: lenient decoding would map different bytes to the same character */
const textOf = (file: string) =>
  new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(readFileSync(file));

const { file, keys, notes } = read();
try {
  const { ok, vouched, says } = checkFile(textOf(file), {
    ...(keys ? { keys } : {}),
    ...(notes ? { checkpoints: notes.map(textOf) } : {}),
  });
  console.log(says);
  process.exitCode = ok ? (vouched ? 0 : UNVOUCHED) : 1;
} catch (error) {
  console.error(`${file} cannot be read: ${(error as Error).message}`);
  process.exitCode = 2;
}

function read() {
  try {
    const { values, positionals } = parseArgs({
      allowPositionals: true,
      options: { key: { type: "string", multiple: true }, checkpoint: { type: "string", multiple: true } },
    });
    const [only, ...more] = positionals;
    if (only === undefined || more.length > 0) throw new Error("one file is needed");
    return { file: only, keys: values.key, notes: values.checkpoint };
  } catch {
    console.error(USAGE);
    return process.exit(2);
  }
}
