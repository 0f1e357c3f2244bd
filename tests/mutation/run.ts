import { fork } from "node:child_process";
import { fileURLToPath } from "node:url";
import { Chance } from "../sim/chance.ts";
import { program } from "./bundle.ts";
import type { Mutant } from "./instrument.ts";
import type { Order, Told } from "./worker.ts";

export interface Wanted {
  /** The share of the mutants to try, 0 to 1, chosen by the seed. */
  share: number;
  seed: number;
  processes: number;
  /** Part of a file's path; only its mutants are tried. */
  within: string;
}

export interface Tried {
  mutant: Mutant;
  /** The test that failed; null when none did. */
  by: string | null;
}

/** A mutant may loop forever, and counts as found after this long without a message. Long enough for a busy machine. */
const PATIENCE_MS = 90_000;
/** Slower tests would cost more than they find. Milliseconds of processor time. */
const SLOW_MS = 900;

/** Breaks the core in one place at a time and runs the tests that reach that place. */
export async function tryMutants({ share, seed, processes, within }: Wanted, said: (line: string) => void) {
  const { code, mutants } = await program();
  const chance = new Chance(seed);
  // In random order, so that any part of it is a fair sample.
  const left = mutants
    .map((mutant) => ({ mutant, lot: chance.next() }))
    .filter(({ mutant, lot }) => lot < share && mutant.file.includes(within))
    .sort((a, b) => b.lot - a.lot)
    .map(({ mutant }) => mutant);
  const tried: Tried[] = [];
  said(`${mutants.length} mutants, ${left.length} of them tried (share ${share}, seed ${seed})`);

  const one = () =>
    new Promise<void>((done, failed) => {
      const child = fork(fileURLToPath(new URL("worker.ts", import.meta.url)), [], {
        execArgv: ["--import", import.meta.resolve("tsx")],
        serialization: "advanced",
      });
      let at: Mutant | undefined;
      let watch: NodeJS.Timeout | undefined;
      let over = false;
      const next = () => {
        clearTimeout(watch);
        at = left.pop();
        if (at === undefined) {
          over = true;
          child.kill();
          return;
        }
        child.send(at.id);
        wait();
      };
      const wait = () => {
        clearTimeout(watch);
        watch = setTimeout(() => child.kill("SIGKILL"), PATIENCE_MS);
      };
      child.on("message", (told: Told) => {
        if (told.is === "alive") {
          wait();
          return;
        }
        if (told.is === "ready") {
          said(`${told.trials} tests, ${told.slow} too slow, ${told.covered} mutants come by`);
          for (const name of told.failing) said(`fails unbroken, left out: ${name}`);
        } else if (at) tried.push({ mutant: at, by: told.is === "killed" ? told.by : null });
        if (told.is === "survived" && at) said(`survived ${placeOf(at)}`);
        if (at && tried.length % 10 === 0) said(`${tried.length} tried, ${noticed(tried)} noticed`);
        next();
      });
      child.on("error", failed);
      child.on("exit", () => {
        clearTimeout(watch);
        if (over) done();
        else if (at) {
          said(`no end ${placeOf(at)}`);
          tried.push({ mutant: at, by: "no end" });
          one().then(done, failed);
        } else failed(new Error("a worker ended before it began"));
      });
      child.send({ code, mutants: mutants.length, slow: SLOW_MS } satisfies Order);
    });
  await Promise.all(Array.from({ length: processes }, one));
  return tried;
}

export const noticed = (tried: readonly Tried[]) => tried.filter((t) => t.by !== null).length;

export function placeOf({ file, line, kind, was, text }: Mutant): string {
  const short = (s: string) => s.replace(/\s+/g, " ").slice(0, 70);
  return `${file}:${line} ${kind}: ${short(was)}  →  ${short(text) || "nothing"}`;
}
