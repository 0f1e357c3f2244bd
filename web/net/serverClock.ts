import { bestSample, type ClockSample, clockSample, keepSample } from "../../shared/models/clock.ts";

/** The panel's estimate of server time. Until the clocks were compared there is none. */
export class ServerClock {
  #samples: ClockSample[] = [];
  /** From a beat or an answer, before the first exchange: late by the one-way delay, never early. */
  #rough: number | null = null;

  exchange(t1: number, t2: number, t3: number, t4: number): void {
    const sample = clockSample({ t1, t2, t3, t4 });
    if (sample) this.#samples = keepSample(this.#samples, sample);
  }

  hear(serverNow: number): void {
    this.#rough = serverNow - Date.now();
  }

  /** Estimated server time, milliseconds; null while unknown. */
  now(): number | null {
    const offset = bestSample(this.#samples)?.offset ?? this.#rough;
    return offset === null ? null : Date.now() + offset;
  }

  /** A new connection may be to a server whose clock was set. */
  forget(): void {
    this.#samples = [];
  }
}
