import { INSTRUMENT_READINGS, type InstrumentReading } from "../../shared/protocol/instruments.ts";
import type { JudgedSample, Sample } from "../../shared/readings/judgeSample.ts";

/** Times in one second that a gauge may cross a mark and be recorded at once. */
const CROSSINGS = 4;

type Good = Extract<JudgedSample, { ok: true }>;

export const gaugeKey = (gauge: string, engine: number | null): string => `${gauge} ${engine}`;

/** The record of a stretch of time: each gauge's last value and its extremes, and the samples. */
export interface Stretch {
  from: number;
  to: number;
  readings: InstrumentReading[];
  samples: Sample[];
}

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
  take(sample: Sample, { map, band }: Good): Stretch[] | null {
    const key = gaugeKey(map.gauge, map.engine);
    const { time, value } = sample;
    const taken = this.#taken.get(key) ?? new Taken(0);
    this.#taken.set(key, taken);
    const isNewest = time > taken.newest;
    if (!taken.add(time)) return null;
    const ended: Stretch[] = [];
    const second = Math.floor(time / 1000);
    if (second !== this.#second) {
      ended.push(...this.flush());
      this.#second = second;
      this.#crossings = 0;
    }
    this.#samples.push(sample);
    const before = this.#readings.get(key);
    const last = before && before.time > time ? before : { time, reading: null };
    this.#readings.set(key, {
      time: last.time,
      reading: {
        gauge: map.gauge,
        ...(map.engine === null ? {} : { engine: map.engine }),
        value: last.reading?.value ?? value,
        least: Math.min(value, before?.reading.least ?? value),
        most: Math.max(value, before?.reading.most ?? value),
        unit: map.unit,
      },
    });
    if (!isNewest) return ended;
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
    const readings = [...this.#readings.values()].map((r) => r.reading).slice(0, INSTRUMENT_READINGS);
    this.#samples = [];
    this.#readings = new Map();
    if (samples.length === 0) return [];
    const times = samples.map((s) => s.time);
    return [{ from: Math.min(...times), to: Math.max(...times), readings, samples }];
  }
}
