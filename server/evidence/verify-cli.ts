// npm run verify -- <file> [--key <hex>]… [--checkpoint <file>]…: says whether an exported record is whole.
// Ends with 1 when it is not.
import { readFileSync } from "node:fs";
import { parseArgs } from "node:util";
import { checkFile } from "./check-file.ts";

const USAGE = `usage: npm run verify -- <exported file> [--key <public key>] [--checkpoint <file>]
  --key         a public key noted elsewhere: no other key may have signed; may be given again
  --checkpoint  a checkpoint kept elsewhere: the record must continue it; may be given again`;

/** @throws on bytes that are no UTF-8: they would all read as the same character */
const textOf = (file: string) =>
  new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(readFileSync(file));

const { file, keys, notes } = read();
try {
  const { ok, says } = checkFile(textOf(file), {
    ...(keys ? { keys } : {}),
    ...(notes ? { checkpoints: notes.map(textOf) } : {}),
  });
  console.log(says);
  process.exitCode = ok ? 0 : 1;
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
