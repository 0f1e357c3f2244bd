import { bestSample, type ClockSample, keepSample } from "../../../shared/models/clock.ts";
import type { MachineClocks } from "../../clock.ts";

/** The most the steady clock is sped up or held back to follow the other: a part of the time that passes. */
const SLEW = 0.005;
/** What is not drift any more: then somebody has set the other clock. Milliseconds. */
const SET_MS = 500;

/**
 * Another machine's clock, counted on by this one's between the times it is asked. Drift is followed slowly; a clock
 * that was set shows as a step of `wall` against `steady`.
 */
export class FollowedClock implements MachineClocks {
  readonly #own: () => number;
  #samples: ClockSample[] = [];
  /** The other clock minus our own. */
  #offset = 0;
  /** What `steady` is ahead of our own. */
  #slewed = 0;
  #slewedAt: number;

  /** @param own milliseconds of a clock that only runs @param first taken before anybody asks the time */
  constructor(own: () => number, first: readonly ClockSample[]) {
    this.#own = own;
    this.#slewedAt = own();
    for (const sample of first) this.add(sample);
    this.#slewed = this.#offset;
  }

  add(sample: ClockSample): void {
    // After a step the samples from before it are of another clock.
    const same = Math.abs(sample.offset - this.#offset) < SET_MS + sample.delay;
    this.#samples = keepSample(same ? this.#samples : [], sample);
    this.#offset = bestSample(this.#samples)?.offset ?? this.#offset;
  }

  wall(): number {
    return this.#own() + this.#offset;
  }

  steady(): number {
    const now = this.#own();
    const most = (now - this.#slewedAt) * SLEW;
    const wanted = this.#offset - this.#slewed;
    if (Math.abs(wanted) < SET_MS) this.#slewed += Math.max(-most, Math.min(most, wanted));
    this.#slewedAt = now;
    return now + this.#slewed;
  }
}
