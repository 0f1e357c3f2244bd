// npm run soak -- [kills] [seed]: kills the real server that often under load, and holds the log against its answers.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { killRun } from "../live/kill-run.ts";
import { prepareServer } from "../live/server-process.ts";

const [kills = 500, seed = 1] = process.argv.slice(2).map(Number);
if (!Number.isInteger(kills) || kills < 1 || !Number.isInteger(seed)) {
  console.error("usage: npm run soak -- [kills] [seed]");
  process.exit(2);
}
prepareServer();
const folder = mkdtempSync(join(tmpdir(), "chockside-soak-"));
const began = performance.now();
const { faults, ...report } = await killRun(join(folder, "soak.db"), seed, kills);
console.log(`seed ${seed}, ${Math.round((performance.now() - began) / 1000)} s: ${JSON.stringify(report)}`);
for (const fault of faults) console.log(`FAULT ${fault}`);
if (faults.length === 0) rmSync(folder, { recursive: true, force: true });
else console.log(`the database is kept in ${folder}`);
process.exitCode = faults.length === 0 ? 0 : 1;
