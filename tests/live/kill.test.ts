import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { killRun, onFile } from "./kill-run.ts";
import { prepareServer } from "./server-process.ts";

/** Two servers at once, one for each core of a small machine. */
const SEEDS = [20_260_601, 20_260_602];
const KILLS_EACH = 12;

let folder: string;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "chockside-kill-"));
  prepareServer();
}, 120_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it("[STO-7, TIM-3] a server killed again and again under load loses nothing it answered, does nothing twice, keeps holds and voids clearances", async () => {
  const reports = await Promise.all(
    SEEDS.map((seed) => killRun(onFile(join(folder, `${seed}.db`)), seed, KILLS_EACH)),
  );
  console.log(JSON.stringify(reports));
  for (const report of reports) {
    expect(report.faults).toEqual([]);
    expect(report.restarts).toBe(2 * KILLS_EACH);
    // The run tested something: many commands were answered, and holds existed when a server died.
    expect(report.acked).toBeGreaterThan(10 * KILLS_EACH);
    expect(report.holdsKept).toBeGreaterThan(0);
  }
  // A kill meets a clearance by chance: in one of the runs at least.
  expect(Math.max(...reports.map((r) => r.clearancesEnded))).toBeGreaterThan(0);
}, 600_000);
