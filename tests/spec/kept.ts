import { canonical } from "../../shared/evidence/canonical.ts";
import { eventSchema, type SessionEvent } from "../../shared/protocol/events.ts";
import type { Step } from "../../shared/session/step.ts";

/** A step of the core, with its events as they were read back from JSON. */
export interface Kept {
  step: Step;
  events: readonly SessionEvent[];
}

/**
 * Reads a step's events back from JSON.
 * @throws Error when one is not valid by the schema or does not survive JSON unchanged: the core makes no such event
 */
export function kept(step: Step): Kept {
  const events = step.events.map((event) => {
    const written = canonical(event);
    const again = eventSchema.parse(JSON.parse(written));
    if (canonical(again) !== written) throw new Error(`event ${event.seq} is changed by its schema`);
    return again;
  });
  return { step, events };
}

/**
 * Steps that many stories begin with. The core is pure, so that the same step from the same state is taken once; the
 * states before them, or the aircraft type of a plan, are the keys, and their steps are forgotten with them.
 */
export class KeptSteps<From extends object> {
  readonly #known = new WeakMap<From, Map<string, Kept>>();

  /** Returns the step from here that has this key, taken now if it was not taken before. */
  take(from: From, key: unknown, step: () => Step): Kept {
    const known = this.#known.get(from) ?? new Map<string, Kept>();
    this.#known.set(from, known);
    const text = JSON.stringify(key);
    const taken = known.get(text) ?? kept(step());
    known.set(text, taken);
    return taken;
  }
}
