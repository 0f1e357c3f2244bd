import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { killRun } from "../live/kill-run.ts";
import { prepareServer } from "../live/server-process.ts";

/** Kills the real server `kills` times under load and holds its log against its answers. True when all is in order. */
export async function killSoak(kills: number, seed: number): Promise<boolean> {
  prepareServer();
  const folder = mkdtempSync(join(tmpdir(), "chockside-soak-"));
  const began = performance.now();
  const { faults, ...report } = await killRun(join(folder, "soak.db"), seed, kills);
  console.log(`seed ${seed}, ${Math.round((performance.now() - began) / 1000)} s: ${JSON.stringify(report)}`);
  for (const fault of faults) console.log(`FAULT ${fault}`);
  if (faults.length === 0) rmSync(folder, { recursive: true, force: true });
  else console.log(`the database is kept in ${folder}`);
  return faults.length === 0;
}
