import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { checkpointFinding } from "../../server/doctor/checkpoints.ts";
import { signingKey } from "../../server/doctor/machine.ts";
import { openSigner } from "../../server/evidence/signer.ts";
import { examine } from "../../server/store/examine.ts";
import { openDatabase } from "../../server/store/open.ts";

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "chockside-doctor-key-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe("npm run doctor, on the signing key", () => {
  it("[OPS-19] finds a key that cannot be loaded", () => {
    const file = join(folder, "evidence-key.pem");
    writeFileSync(file, "no key", { mode: 0o600 });
    expect(signingKey(file, true)).toMatchObject({
      is: "bad",
      says: expect.stringContaining("no private key"),
    });
  });

  it("[OPS-19] compares the key with those of the recorded checkpoints", () => {
    const [mine, other] = ["mine", "other"].map(
      (name) => openSigner({ file: join(folder, name), ours: true }).publicHex,
    ) as [string, string];
    const file = join(folder, "chockside.db");
    openDatabase(file, 1).close();
    const record = (size: number, key: string) => {
      const db = new Database(file);
      db.prepare(`INSERT INTO "Checkpoint" VALUES ('a', ?, ?, 'note', ?)`).run(size, size, key);
      db.close();
    };
    const found = (key: string | null) => checkpointFinding(key, examine(file).signedBy ?? []);
    expect(found(mine).is).toBe("ok");
    record(1, other);
    expect(found(mine)).toMatchObject({ is: "bad", says: expect.stringContaining(other) });
    expect(found(null).is).toBe("bad");
    expect(found(other).is).toBe("ok");
    record(2, mine);
    expect(found(mine)).toMatchObject({ is: "watch", says: expect.stringContaining(`1 of ${other}`) });
    expect(found(other).is).toBe("bad");
  });
});
