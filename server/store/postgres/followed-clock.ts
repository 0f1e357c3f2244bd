import { bestSample, type ClockSample, keepSample } from "../../../shared/models/clock.ts";
import type { MachineClocks } from "../../clock.ts";

/** The steady clock runs at most this fraction faster or slower, to follow the other clock. */
const SLEW = 0.005;
/** A larger difference is no drift: somebody set the other clock. Milliseconds. */
const SET_MS = 500;

/**
 * A remote clock, continued by the local clock between samples. Drift is followed slowly. A clock that was set shows
 * as a step of `wall` against `steady`.
 */
export class FollowedClock implements MachineClocks {
  readonly #own: () => number;
  #samples: ClockSample[] = [];
  /** Remote clock minus local clock. */
  #offset = 0;
  /** `steady` minus local clock. */
  #slewed = 0;
  #slewedAt: number;

  /**
   * @param own milliseconds of a monotonic clock
   * @param first samples taken before the first reading
   */
  constructor(own: () => number, first: readonly ClockSample[]) {
    this.#own = own;
    this.#slewedAt = own();
    for (const sample of first) this.add(sample);
    this.#slewed = this.#offset;
  }

  add(sample: ClockSample): void {
    // Discard the samples from before a step.
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
