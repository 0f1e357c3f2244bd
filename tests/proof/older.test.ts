import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { gunzipSync } from "node:zlib";
import { expect, it } from "vitest";
import { checkFile } from "../../server/evidence/check-file.ts";

/** The export of a whole four-engine start, written once by the version before aircraft had records of their own. */
const TEXT = gunzipSync(readFileSync(new URL("./fixtures/started-1.ndjson.gz", import.meta.url))).toString(
  "utf8",
);

it("[CHP-7] an export of an earlier version is good here and by the second verifier, and bad with one word changed", () => {
  const folder = mkdtempSync(join(tmpdir(), "chockside-older-"));
  const file = join(folder, "evidence.ndjson");
  const second = (text: string) => {
    writeFileSync(file, text);
    return spawnSync("python3", [fileURLToPath(new URL("./verify.py", import.meta.url)), file]).status;
  };
  try {
    expect(checkFile(TEXT)).toMatchObject({ ok: true, says: expect.stringContaining("stage closed") });
    expect(second(TEXT)).toBe(3);
    const changed = TEXT.replace('"answer":"received"', '"answer":"readBack"');
    expect(changed).not.toBe(TEXT);
    expect(checkFile(changed).ok).toBe(false);
    expect(second(changed)).not.toBe(0);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
