import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
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

describe.concurrent("a server killed again and again under load", () => {
  it.each(SEEDS)(
    "[STO-7, TIM-3] loses nothing it answered, does nothing twice, keeps holds and voids clearances (seed %i)",
    async (seed) => {
      const report = await killRun(onFile(join(folder, `${seed}.db`)), seed, KILLS_EACH);
      console.log(`seed ${seed}: ${JSON.stringify(report)}`);
      expect(report.faults).toEqual([]);
      // The run tested something: many commands were answered, and holds and clearances existed when a server died.
      expect(report.restarts).toBe(2 * KILLS_EACH);
      expect(report.acked).toBeGreaterThan(10 * KILLS_EACH);
      expect(report.holdsKept).toBeGreaterThan(0);
      expect(report.clearancesEnded).toBeGreaterThan(0);
    },
    600_000,
  );
});
