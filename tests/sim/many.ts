import { runApart } from "./apart.ts";
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
  const seeds = { first, count, batch: BATCH, processes };
  await runApart<Runs>(new URL("worker.ts", import.meta.url), seeds, (batch) => {
    add(sum, batch);
    said(batch, sum);
  });
  return sum;
}
