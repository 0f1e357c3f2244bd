// Tries the mutants that its parent names, one at a time, and reports the test that failed.
import { createRequire } from "node:module";
import vm from "node:vm";
import { type Trial, trialsOf } from "./trials.ts";

/** The parent's first message; mutants' numbers follow. */
export interface Order {
  code: string;
  mutants: number;
  /** Slower tests are left out. Milliseconds of processor time. */
  slow: number;
}
export type Told =
  | { is: "alive" }
  | { is: "ready"; trials: number; failing: string[]; slow: number; covered: number }
  | { is: "killed"; mutant: number; by: string }
  | { is: "survived"; mutant: number; tried: number };

const require = createRequire(import.meta.url);
const tell = (told: Told) => process.send?.(told);

class Worker {
  readonly #script: vm.Script;
  readonly #order: Order;
  /** For each mutant the tests that reach it, the quickest first; null when it acts while files load. */
  #covering: (number[] | null)[] = [];
  #quick: number[] = [];
  #at = 0;
  #hit = new Uint8Array(0);
  #trials: Trial[] = [];

  constructor(order: Order) {
    this.#order = order;
    this.#script = new vm.Script(`(function (require, module, exports, $mutant) {${order.code}\n})`);
  }

  /** Loads everything again, so that nothing of another mutant remains. */
  #load(on: (id: number) => boolean) {
    this.#trials = trialsOf((vitest) => {
      const load = (name: string) => (name === "vitest" ? vitest : require(name));
      this.#script.runInThisContext()(load, { exports: {} }, {}, on);
    });
  }

  async baseline() {
    const { mutants, slow } = this.#order;
    this.#hit = new Uint8Array(mutants);
    this.#load((id) => {
      this.#hit[id] = 1;
      return false;
    });
    const atLoad = this.#hit.slice();
    const covering = Array.from({ length: mutants }, (): number[] => []);
    const took: number[] = [];
    const failing: string[] = [];
    for (const [i, trial] of this.#trials.entries()) {
      this.#hit.fill(0);
      const began = process.cpuUsage().user;
      if (!(await passes(trial))) failing.push(trial.name);
      took[i] = (process.cpuUsage().user - began) / 1000;
      if (failing.at(-1) === trial.name || (took[i] ?? 0) > slow) continue;
      this.#quick.push(i);
      for (let id = 0; id < mutants; id += 1) if (this.#hit[id] === 1) covering[id]?.push(i);
    }
    const byTime = (a: number, b: number) => (took[a] ?? 0) - (took[b] ?? 0);
    this.#quick.sort(byTime);
    this.#covering = covering.map((tests, id) => (atLoad[id] === 1 ? null : tests.sort(byTime)));
    tell({
      is: "ready",
      trials: this.#trials.length,
      failing,
      slow: this.#trials.length - failing.length - this.#quick.length,
      covered: this.#covering.filter((tests) => tests === null || tests.length > 0).length,
    });
  }

  async attempt(mutant: number) {
    this.#at = mutant;
    const tests = this.#covering[mutant] ?? this.#quick;
    try {
      this.#load((id) => id === this.#at);
    } catch {
      tell({ is: "killed", mutant, by: "loading" });
      return;
    }
    for (const i of tests) {
      const trial = this.#trials[i];
      if (trial && (await passes(trial))) {
        tell({ is: "alive" });
        continue;
      }
      tell({ is: "killed", mutant, by: trial?.name ?? "collecting" });
      return;
    }
    tell({ is: "survived", mutant, tried: tests.length });
  }
}

async function passes(trial: Trial): Promise<boolean> {
  try {
    await trial.run();
    return true;
  } catch {
    return false;
  }
}

let worker: Worker | undefined;
process.on("message", (message: Order | number) => {
  if (typeof message === "number") void worker?.attempt(message);
  else {
    worker = new Worker(message);
    void worker.baseline();
  }
});
