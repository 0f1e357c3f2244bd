// npm run verify -- <file>: says whether an exported record (NDJSON) is whole. Ends with 1 when it is not.
import { readFileSync } from "node:fs";
import { checkFile } from "./check-file.ts";

const [file, ...more] = process.argv.slice(2);
if (file === undefined || more.length > 0) {
  console.error("usage: npm run verify -- <file exported as ndjson>");
  process.exit(2);
}
try {
  const { ok, says } = checkFile(readFileSync(file, "utf8"));
  console.log(says);
  process.exitCode = ok ? 0 : 1;
} catch (error) {
  console.error(`${file} cannot be read: ${(error as Error).message}`);
  process.exitCode = 2;
}
