// npm run verify -- <file> [--key <hex>]… [--checkpoint <file>]… [--pictures <folder>]: checks an exported record, and
// the pictures beside it. The exit code is 1 when one was changed, 2 when it cannot be read, and 3 when it is whole but nothing kept elsewhere vouches for it.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { checkFile } from "./check-file.ts";
import { checkPictures } from "./check-pictures.ts";

const UNVOUCHED = 3;
const USAGE = `usage: npm run verify -- <exported file> [--key <public key>] [--checkpoint <file>] [--pictures <folder>]
  --key         a public key noted elsewhere: no other key may have signed; may be given again
  --checkpoint  a checkpoint kept elsewhere: the record must continue it; may be given again
  --pictures    the unpacked pictures of the aircraft's defects: each must be the one that the record names`;

/** @throws on invalid UTF-8: lenient decoding would map different bytes to the same character */
const textOf = (file: string) =>
  new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(readFileSync(file));

const { file, keys, notes, pictures } = read();
try {
  const text = textOf(file);
  const { ok, vouched, says } = checkFile(text, {
    ...(keys ? { keys } : {}),
    ...(notes ? { checkpoints: notes.map(textOf) } : {}),
  });
  console.log(says);
  const seen = ok && pictures !== undefined ? checkPictures(text, filesIn(pictures)) : { ok, says: [] };
  for (const line of seen.says) console.log(line);
  process.exitCode = ok && seen.ok ? (vouched ? 0 : UNVOUCHED) : 1;
} catch (error) {
  console.error(`${file} cannot be read: ${(error as Error).message}`);
  process.exitCode = 2;
}

function filesIn(folder: string): Map<string, Uint8Array> {
  const files = readdirSync(folder, { withFileTypes: true }).filter((entry) => entry.isFile());
  return new Map(files.map(({ name }) => [name, readFileSync(join(folder, name))]));
}

function read() {
  try {
    const { values, positionals } = parseArgs({
      allowPositionals: true,
      options: {
        key: { type: "string", multiple: true },
        checkpoint: { type: "string", multiple: true },
        pictures: { type: "string" },
      },
    });
    const [only, ...more] = positionals;
    if (only === undefined || more.length > 0) throw new Error("one file is needed");
    return { file: only, keys: values.key, notes: values.checkpoint, pictures: values.pictures };
  } catch {
    console.error(USAGE);
    return process.exit(2);
  }
}
