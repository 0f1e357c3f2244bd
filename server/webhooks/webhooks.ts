import type { Sessions } from "../sessions/sessions.ts";
import { Courier, type CourierDeps } from "./courier.ts";
import type { DeadLetter } from "./progress.ts";
import type { Target } from "./targets.ts";

/** Every webhook of this server. */
export class Webhooks {
  readonly #targets: readonly Target[];
  readonly #couriers: Courier[];
  readonly #deps: CourierDeps;
  readonly #stop: () => void;

  constructor(deps: CourierDeps & { sessions: Sessions }, targets: readonly Target[]) {
    this.#deps = deps;
    this.#targets = targets;
    this.#couriers = targets.map((target) => new Courier(deps, target));
    this.#stop = deps.sessions.tell({
      recorded: (session) => {
        for (const courier of this.#couriers) courier.moved(session);
      },
      unrecorded() {},
      ramp() {},
    });
  }

  /** Returns each target without its secret, and why its newest message waits; null when none does. */
  states(): { name: string; host: string; kinds: string[]; waits: string | null }[] {
    return this.#targets.map(({ name, url, kinds }, i) => {
      const waits = this.#couriers[i]?.waits ?? null;
      return { name, host: new URL(url).host, kinds, waits };
    });
  }

  /** Returns the last messages that were given up, the newest first. */
  deadLetters(): Promise<DeadLetter[]> {
    return this.#deps.progress.deadLetters();
  }

  /** Resolves once nothing is being sent any more. */
  async close(): Promise<void> {
    this.#stop();
    for (const courier of this.#couriers) courier.close();
    await Promise.all(this.#couriers.map((c) => c.done));
  }
}
