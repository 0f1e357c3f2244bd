import { mkdtempSync, readFileSync, rmSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it } from "vitest";
import { parse } from "yaml";
import { NO_BUS } from "../../server/many/bus.ts";
import { lastBackupOf, surroundings } from "../../server/telemetry/surroundings.ts";
import { openTls } from "../../server/tls.ts";
import { testServer } from "./test-server.ts";

const NOW = Date.UTC(2026, 5, 1);
const file = (name: string) => new URL(`../../server/monitoring/${name}`, import.meta.url);

it("[OPS-23] reads the disk, the backup, the certificate and Redis, and NaN for what is not used", async () => {
  const folder = mkdtempSync(join(tmpdir(), "chockside-around-"));
  const data = join(folder, "chockside.db");
  const own = (name: string) => join(folder, name);
  const files = { cert: own("c.pem"), key: own("k.pem"), root: own("r.crt"), rootKey: own("rk.pem") };
  const tls = await openTls({ is: "own", ...files, names: ["ramp.example"] }, NOW);
  const read = async (of: Parameters<typeof surroundings>[0]) =>
    Object.fromEntries(
      await Promise.all(surroundings(of).map(async ({ name, read: look }) => [name, await look()] as const)),
    );
  const now = () => NOW;
  const none = await read({ data: null, disk: data, tls: null, bus: null, now });
  expect(none).toMatchObject({
    chockside_backup_age_seconds: Number.NaN,
    chockside_certificate_days: Number.NaN,
    chockside_redis_up: Number.NaN,
  });
  expect(none.chockside_disk_free_bytes).toBeGreaterThan(0);
  const of = { data, disk: data, tls, bus: NO_BUS, now };
  expect((await read(of)).chockside_backup_age_seconds).toBe(Number.POSITIVE_INFINITY);
  writeFileSync(lastBackupOf(data), "");
  utimesSync(lastBackupOf(data), NOW / 1000 - 3_600, NOW / 1000 - 3_600);
  const all = await read(of);
  expect(all).toMatchObject({ chockside_backup_age_seconds: 3_600, chockside_redis_up: 0 });
  expect(all.chockside_certificate_days).toBeGreaterThan(1);
  rmSync(folder, { recursive: true, force: true });
});

it("[OPS-24] alert rules and dashboard name only figures that the server has", async () => {
  const around = surroundings({ data: null, disk: "/tmp/x", tls: null, bus: null, now: () => NOW });
  const test = await testServer({ surroundings: around });
  const { body } = await test.app.inject({ url: "/metrics" });
  await test.close();
  const known = new Set([...body.matchAll(/^# TYPE (\S+)/gm)].map((m) => m[1] ?? ""));
  const rules = parse(readFileSync(file("alerts.yaml"), "utf8")).groups[0].rules as { expr: string }[];
  const dashboard = JSON.parse(readFileSync(file("dashboard.json"), "utf8"));
  const panels = dashboard.panels.flatMap((p: { targets: { expr: string }[] }) => p.targets);
  expect([rules.length, panels.length]).toEqual([8, 10]);
  for (const { expr } of [...rules, ...panels])
    for (const [name] of expr.matchAll(/chockside_\w+/g))
      expect(known, expr).toContain(name.replace(/_(bucket|count|sum)$/, ""));
});
