import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type KillGround, killRun, onFile, onPostgres } from "../live/kill-run.ts";
import { prepareServer } from "../live/server-process.ts";
import { PostgresServer } from "../servers/postgres-server.ts";

/**
 * Kills the real server `kills` times under load and compares its log with its answers. Returns true without
 * faults.
 */
export async function killSoak(kills: number, seed: number): Promise<boolean> {
  prepareServer();
  const folder = mkdtempSync(join(tmpdir(), "chockside-soak-"));
  const kept = await soak(onFile(join(folder, "soak.db")), kills, seed);
  if (kept) rmSync(folder, { recursive: true, force: true });
  else console.log(`the database is kept in ${folder}`);
  return kept;
}

/** Does the same on a separate PostgreSQL. */
export async function killSoakOnPostgres(kills: number, seed: number): Promise<boolean> {
  prepareServer();
  const postgres = await PostgresServer.start();
  try {
    return await soak(onPostgres(await postgres.database("soak")), kills, seed);
  } finally {
    await postgres.stop();
  }
}

async function soak(ground: KillGround, kills: number, seed: number): Promise<boolean> {
  const began = performance.now();
  const { faults, ...report } = await killRun(ground, seed, kills);
  console.log(`seed ${seed}, ${Math.round((performance.now() - began) / 1000)} s: ${JSON.stringify(report)}`);
  for (const fault of faults) console.log(`FAULT ${fault}`);
  return faults.length === 0;
}
