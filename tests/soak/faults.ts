import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { powerCuts } from "../faults/powerCut.ts";
import { faultRun, SUFFERINGS } from "../faults/run.ts";
import { prepareServer } from "../live/server-process.ts";
import { Chance } from "../sim/chance.ts";

/** Power cuts for each requested second. */
const CUTS_PER_SECOND = 10;

/** Disturbs links in every way for this many seconds and sometimes kills the server, then cuts the power. */
export async function faultSoak(seconds: number, seed: number): Promise<boolean> {
  prepareServer();
  const folder = mkdtempSync(join(tmpdir(), "chockside-soak-"));
  const sufferings = [...Object.values(SUFFERINGS), SUFFERINGS.torn, SUFFERINGS.lossy, SUFFERINGS.dark];
  const links = await faultRun(join(folder, "faults.db"), {
    seed,
    ms: seconds * 1_000,
    sufferings,
    kill: true,
  });
  console.log(`links, seed ${seed}: ${JSON.stringify({ ...links, faults: links.faults.length })}`);
  const cuts = await powerCuts(folder, seconds * CUTS_PER_SECOND, new Chance(seed));
  console.log(`power cuts: ${JSON.stringify({ ...cuts, faults: cuts.faults.length })}`);
  const faults = [...links.faults, ...cuts.faults];
  for (const fault of faults) console.log(`FAULT ${fault}`);
  if (faults.length === 0) rmSync(folder, { recursive: true, force: true });
  else console.log(`the databases are kept in ${folder}`);
  return faults.length === 0;
}
