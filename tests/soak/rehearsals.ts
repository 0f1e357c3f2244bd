import { fork } from "node:child_process";
import { fileURLToPath } from "node:url";

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
  let [next, done, bad] = [first, 0, 0];
  const one = () =>
    new Promise<void>((ended, failed) => {
      const child = fork(fileURLToPath(new URL("rehearsalWorker.ts", import.meta.url)), {
        execArgv: ["--import", import.meta.resolve("tsx")],
      });
      const hand = () => {
        const batch = Math.min(BATCH, first + runs - next);
        if (batch > 0) child.send([next, batch]);
        else child.disconnect();
        next += batch;
      };
      child.on("message", ({ count, faults }: Said) => {
        for (const fault of faults) console.log(`FAULT ${fault}`);
        bad += faults.length;
        done += count;
        console.log(`${done} runs, ${bad} at fault, ${Math.round((performance.now() - began) / 1000)} s`);
        hand();
      });
      child.on("error", failed);
      child.on("exit", (code) => (code === 0 ? ended() : failed(new Error(`a process ended with ${code}`))));
      hand();
    });
  await Promise.all(Array.from({ length: processes }, one));
  return bad === 0 && done === runs;
}
