import { fork } from "node:child_process";
import { fileURLToPath } from "node:url";

/** Seeds from `first` on, and the number that a process receives at a time. */
export interface Seeds {
  first: number;
  count: number;
  batch: number;
  processes: number;
}

/**
 * Lets several processes of one worker run the seeds. A worker answers each message `[first, count]` with one message;
 * `said` is called with it before the process receives its next seeds.
 * @throws Error when a process ends in any other way than by having nothing left to do
 */
export async function runApart<Said>(
  worker: URL,
  { first, count, batch, processes }: Seeds,
  said: (by: Said) => void,
): Promise<void> {
  let next = first;
  const one = () =>
    new Promise<void>((done, failed) => {
      const child = fork(fileURLToPath(worker), { execArgv: ["--import", import.meta.resolve("tsx")] });
      const hand = () => {
        const most = Math.min(batch, first + count - next);
        if (most > 0) child.send([next, most]);
        else child.disconnect();
        next += most;
      };
      child.on("message", (by: Said) => {
        said(by);
        hand();
      });
      child.on("error", failed);
      child.on("exit", (code) => (code === 0 ? done() : failed(new Error(`a process ended with ${code}`))));
      hand();
    });
  await Promise.all(Array.from({ length: processes }, one));
}
