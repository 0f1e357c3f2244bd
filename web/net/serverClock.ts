import { bestSample, type ClockSample, clockSample, keepSample } from "../../shared/models/clock.ts";

/** Estimates server time. There is no estimate until a message or a clock exchange has arrived. */
export class ServerClock {
  #samples: ClockSample[] = [];
  /** Offset from a beat or an answer, used before the first exchange. It is late by the one-way delay, never early. */
  #rough: number | null = null;

  exchange(t1: number, t2: number, t3: number, t4: number): void {
    const sample = clockSample({ t1, t2, t3, t4 });
    if (sample) this.#samples = keepSample(this.#samples, sample);
  }

  hear(serverNow: number): void {
    this.#rough = serverNow - Date.now();
  }

  /** Returns estimated server time, milliseconds; null while unknown. */
  now(): number | null {
    const offset = bestSample(this.#samples)?.offset ?? this.#rough;
    return offset === null ? null : Date.now() + offset;
  }

  /** Discards the samples: a new connection may reach a server whose clock has been set. */
  forget(): void {
    this.#samples = [];
  }
}
