import { INSTRUMENT_READINGS, type InstrumentReading } from "../../shared/protocol/instruments.ts";
import type { JudgedSample, Sample } from "../../shared/readings/judgeSample.ts";

/** Times in one second that a gauge may cross a mark and be recorded at once. */
const CROSSINGS = 4;

type Good = Extract<JudgedSample, { ok: true }>;

/** The record of a stretch of time: each gauge's last value and its extremes, and the samples. */
export interface Stretch {
  from: number;
  to: number;
  readings: InstrumentReading[];
  samples: Sample[];
}

/**
 * Gathers the samples of one feed by the second of the instrument's clock. A stretch ends with its second, or at once
 * when a gauge crosses one of its marks, so that the record has every crossing and every extreme and not every sample.
 */
export class Windows {
  #second = 0;
  #crossings = 0;
  #readings = new Map<string, InstrumentReading>();
  #samples: Sample[] = [];
  /** The band in which each gauge was last. */
  readonly #bands = new Map<string, string>();
  /** The time of the last sample of each gauge. */
  readonly #last = new Map<string, number>();

  /** Returns the stretches that the sample ends; null when it is older than one of its gauge that was taken. */
  take(sample: Sample, { map, band }: Good): Stretch[] | null {
    const key = `${map.gauge} ${map.engine}`;
    if (sample.time < (this.#last.get(key) ?? 0)) return null;
    const ended: Stretch[] = [];
    const second = Math.floor(sample.time / 1000);
    if (second !== this.#second) {
      ended.push(...this.flush());
      this.#second = second;
      this.#crossings = 0;
    }
    this.#last.set(key, sample.time);
    this.#samples.push(sample);
    const { value } = sample;
    const before = this.#readings.get(key);
    this.#readings.set(key, {
      gauge: map.gauge,
      ...(map.engine === null ? {} : { engine: map.engine }),
      value,
      least: Math.min(value, before?.least ?? value),
      most: Math.max(value, before?.most ?? value),
      unit: map.unit,
    });
    const was = this.#bands.get(key);
    this.#bands.set(key, band);
    if (was !== undefined && was !== band && this.#crossings < CROSSINGS) {
      this.#crossings += 1;
      ended.push(...this.flush());
    }
    return ended;
  }

  /** Ends the present stretch. Returns it, or nothing when it has no sample. */
  flush(): Stretch[] {
    const samples = this.#samples;
    const readings = [...this.#readings.values()].slice(0, INSTRUMENT_READINGS);
    this.#samples = [];
    this.#readings = new Map();
    if (samples.length === 0) return [];
    const times = samples.map((s) => s.time);
    return [{ from: Math.min(...times), to: Math.max(...times), readings, samples }];
  }
}
