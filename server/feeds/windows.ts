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

const NONE: readonly Stretch[] = [];

/** Times of a gauge's samples that are remembered, so that none is taken twice: 20 s at 20 a second. */
const REMEMBERED = 400;

/** The samples of one gauge that were taken. */
class Taken {
  /** The newest moment that counts as taken, with all before it. */
  #floor: number;
  readonly #times = new Set<number>();
  newest: number;

  constructor(floor: number) {
    this.#floor = floor;
    this.newest = floor;
  }

  /** Returns false when the sample of that time was taken before, or is older than is remembered. */
  add(time: number): boolean {
    if (time <= this.#floor || this.#times.has(time)) return false;
    this.#times.add(time);
    this.newest = Math.max(this.newest, time);
    if (this.#times.size > REMEMBERED) {
      const oldest = [...this.#times].sort((a, b) => a - b).slice(0, REMEMBERED / 2);
      for (const each of oldest) this.#times.delete(each);
      this.#floor = oldest.at(-1) ?? this.#floor;
    }
    return true;
  }
}

/**
 * Gathers the samples of one feed by the second of the instrument's clock. A stretch ends with its second, or at once
 * when a gauge crosses one of its marks, so that the record has every crossing and every extreme and not every sample.
 * Samples may come out of order, as a broker that was away sends them.
 */
export class Windows {
  #second = 0;
  #crossings = 0;
  /** Changed in place: a new object for each sample would keep the collector busy. */
  #readings = new Map<string, { time: number; reading: InstrumentReading }>();
  #samples: Sample[] = [];
  /** The band in which each gauge was last. */
  readonly #bands = new Map<string, string>();
  readonly #taken: Map<string, Taken>;

  /** @param last the time of the last sample of each gauge that is recorded, by `gaugeKey` */
  constructor(last: Iterable<readonly [string, number]> = []) {
    this.#taken = new Map([...last].map(([key, time]) => [key, new Taken(time)]));
  }

  /** Returns the stretches that the sample ends; null when it was taken before. */
  take(sample: Sample, judged: Good): readonly Stretch[] | null {
    const { key, band } = judged;
    const { time } = sample;
    const taken = this.#taken.get(key) ?? new Taken(0);
    if (taken.newest === 0) this.#taken.set(key, taken);
    const isNewest = time > taken.newest;
    if (!taken.add(time)) return null;
    const second = Math.floor(time / 1000);
    const before = second === this.#second ? NONE : this.flush();
    if (second !== this.#second) {
      this.#second = second;
      this.#crossings = 0;
    }
    this.#samples.push(sample);
    this.#note(sample, judged);
    if (!isNewest) return before;
    const was = this.#bands.get(key);
    if (was === band) return before;
    this.#bands.set(key, band);
    if (was === undefined || this.#crossings >= CROSSINGS) return before;
    this.#crossings += 1;
    return [...before, ...this.flush()];
  }

  /** Adds a sample to what the present stretch says of its gauge. */
  #note({ time, value }: Sample, { map, key }: Good): void {
    const known = this.#readings.get(key);
    if (known) {
      const { reading } = known;
      if (known.time <= time) {
        known.time = time;
        reading.value = value;
      }
      reading.least = Math.min(reading.least, value);
      reading.most = Math.max(reading.most, value);
      return;
    }
    const engine = map.engine === null ? {} : { engine: map.engine };
    const reading = { gauge: map.gauge, ...engine, value, least: value, most: value, unit: map.unit };
    this.#readings.set(key, { time, reading });
  }

  /** Ends the present stretch. Returns it, or nothing when it has no sample. */
  flush(): readonly Stretch[] {
    const samples = this.#samples;
    const readings = [...this.#readings.values()].map((r) => r.reading).slice(0, INSTRUMENT_READINGS);
    this.#samples = [];
    this.#readings = new Map();
    if (samples.length === 0) return NONE;
    let from = Number.POSITIVE_INFINITY;
    let to = 0;
    for (const { time } of samples) {
      from = Math.min(from, time);
      to = Math.max(to, time);
    }
    return [{ from, to, readings, samples }];
  }
}
