import { fork } from "node:child_process";
import { fileURLToPath } from "node:url";
import { type Outcome, simulate } from "./simulate.ts";

/** The result of many runs: the failed ones, and totals. */
export interface Runs {
  runs: number;
  failed: Outcome[];
  events: number;
  resent: number;
  upsets: number;
}

const none = (): Runs => ({ runs: 0, failed: [], events: 0, resent: 0, upsets: 0 });

function add(sum: Runs, { runs, failed, events, resent, upsets }: Runs): void {
  sum.runs += runs;
  sum.failed.push(...failed);
  sum.events += events;
  sum.resent += resent;
  sum.upsets += upsets;
}

/** Runs seeds from `first` on, one after another. */
export async function simulateMany(first: number, count: number): Promise<Runs> {
  const sum = none();
  for (let seed = first; seed < first + count; seed += 1) {
    const outcome = await simulate(seed);
    add(sum, { ...outcome, runs: 1, failed: outcome.fault ? [outcome] : [] });
  }
  return sum;
}

/** Seeds that a process receives at a time. */
const BATCH = 50;

/** Does the same in several processes. `said` is called after every batch with the sum so far. */
export async function simulateApart(
  first: number,
  count: number,
  processes: number,
  said: (batch: Runs, sum: Runs) => void,
): Promise<Runs> {
  const sum = none();
  let next = first;
  const one = () =>
    new Promise<void>((done, failed) => {
      const child = fork(fileURLToPath(new URL("worker.ts", import.meta.url)), {
        execArgv: ["--import", import.meta.resolve("tsx")],
      });
      const hand = () => {
        const batch = Math.min(BATCH, first + count - next);
        if (batch > 0) child.send([next, batch]);
        else child.disconnect();
        next += batch;
      };
      child.on("message", (batch: Runs) => {
        add(sum, batch);
        said(batch, sum);
        hand();
      });
      child.on("error", failed);
      child.on("exit", (code) => (code === 0 ? done() : failed(new Error(`a process ended with ${code}`))));
      hand();
    });
  await Promise.all(Array.from({ length: processes }, one));
  return sum;
}
