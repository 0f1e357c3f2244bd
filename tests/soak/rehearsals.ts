import { runApart } from "../sim/apart.ts";

/** Seeds that a process receives at a time: as many are judged together. */
const BATCH = 20;

interface Said {
  count: number;
  faults: string[];
}

/**
 * Plays random scripts with random crews in several processes. Prints each that is stuck, breaks a rule of the
 * protocol, could be taken for a start, or gives other bytes the second time; returns true for none.
 */
export async function rehearsalSoak(runs: number, first: number, processes: number): Promise<boolean> {
  const began = performance.now();
  let [done, bad] = [0, 0];
  const seeds = { first, count: runs, batch: BATCH, processes };
  await runApart<Said>(new URL("rehearsalWorker.ts", import.meta.url), seeds, ({ count, faults }) => {
    for (const fault of faults) console.log(`FAULT ${fault}`);
    bad += faults.length;
    done += count;
    console.log(`${done} runs, ${bad} at fault, ${Math.round((performance.now() - began) / 1000)} s`);
  });
  return bad === 0 && done === runs;
}
