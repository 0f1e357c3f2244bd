import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { packagesFinding } from "../../server/doctor/packages.ts";
import { lockNow, type PackagesRecord, readRecord, recordOf } from "../../server/packages/record.ts";

const DAY = 24 * 3_600_000;
const NOW = Date.UTC(2026, 5, 1);
const ROOT = fileURLToPath(new URL("../..", import.meta.url));

const report = (found: Record<string, string>) => ({
  auditReportVersion: 2,
  vulnerabilities: Object.fromEntries(
    Object.entries(found).map(([name, severity]) => [name, { name, severity, fixAvailable: true }]),
  ),
});
const asked = (found: Record<string, string>, at = NOW, before: PackagesRecord | null = null) =>
  recordOf(report(found), "lock", at, before);
const is = (record: PackagesRecord | null, after = 0, lock = "lock") =>
  packagesFinding(record, lock, NOW + after * DAY).is;

describe("known faults of packages", () => {
  it("[OPS-14] are asked for each month and whenever packages changed, or the doctor says so", () => {
    expect([
      is(null),
      is(asked({})),
      is(asked({}), 30),
      is(asked({}), 31),
      is(asked({}), 0, "other"),
    ]).toEqual(["watch", "ok", "ok", "watch", "watch"]);
  });

  it.each([
    ["critical", 7],
    ["high", 7],
    ["moderate", 30],
    ["low", 30],
  ])(
    "[OPS-14] that are %s are to be mended within %i days of the first answer that named them",
    (severity, days) => {
      const first = asked({ left: severity });
      expect([is(first), is(first, days), is(first, days + 1)]).toEqual(["watch", "watch", "bad"]);
      // Asking again gives no more time; a more serious notice of the same package replaces the first.
      const again = asked({ left: severity }, NOW + days * DAY, first);
      expect(is(again, days + 1)).toBe("bad");
      const graver = asked({ left: "critical" }, NOW + days * DAY, asked({ left: "info" }));
      expect(is(graver, days + 7)).toBe("watch");
      expect(is(asked({}, NOW + days * DAY, first), days + 1)).toBe("ok");
    },
  );

  it("[OPS-14] are not reported absent when the registry cannot be reached", () => {
    expect(() => asked({ left: "grim" })).toThrow();
    for (const answer of [null, {}, { message: "404 Not Found" }, { vulnerabilities: {} }])
      expect(() => recordOf(answer, "lock", NOW, null)).toThrow();
  });

  it("[OPS-14] are kept beside the database by npm run audit, which ends with 1 when there are any", () => {
    const folder = mkdtempSync(join(tmpdir(), "chockside-packages-"));
    const data = join(folder, "chockside.db");
    // npm itself would use the network.
    const npm = (answer: unknown) =>
      writeFileSync(join(folder, "npm"), `#!/bin/sh\necho '${JSON.stringify(answer)}'\nexit 1\n`, {
        mode: 0o755,
      });
    const audit = () => {
      const PATH = `${folder}${delimiter}${process.env.PATH}`;
      const options = {
        cwd: ROOT,
        env: { ...process.env, PATH, CHOCKSIDE_DATA: data },
        stdio: "pipe",
      } as const;
      execFileSync(process.execPath, ["--import", "tsx", "server/packages/audit-cli.ts"], options);
    };
    npm(report({ left: "high" }));
    expect(audit).toThrow(expect.objectContaining({ status: 1 }));
    expect(readRecord(data)).toMatchObject({ lock: lockNow(), faults: { left: { severity: "high" } } });
    const before = readFileSync(join(folder, "packages-audit.json"), "utf8");
    npm({ message: "no way out" });
    expect(audit).toThrow(expect.objectContaining({ status: 1, stderr: expect.anything() }));
    expect(readFileSync(join(folder, "packages-audit.json"), "utf8")).toBe(before);
    rmSync(folder, { recursive: true });
  });
});
