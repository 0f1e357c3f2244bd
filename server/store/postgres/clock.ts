import { performance } from "node:perf_hooks";
import { type ClockSample, clockSample } from "../../../shared/models/clock.ts";
import type { MachineClocks } from "../../clock.ts";
import { FollowedClock } from "./followed-clock.ts";
import { type Place, PostgresLink } from "./link.ts";

const FIRST_SAMPLES = 5;
const SAMPLE_MS = 2_000;
const ANSWER_MS = 2_000;

/**
 * The database's clock, so that all servers on one database decide by the same clock. Offset and delay are measured
 * as panels measure the server's (RFC 5905).
 */
export class DatabaseClock implements MachineClocks {
  readonly #link: PostgresLink;
  readonly #clock: FollowedClock;
  readonly #timer: NodeJS.Timeout;

  private constructor(link: PostgresLink, clock: FollowedClock) {
    this.#link = link;
    this.#clock = clock;
    const again = () =>
      sampleOf(link).then(
        (sample) => sample && clock.add(sample),
        () => {},
      );
    this.#timer = setInterval(again, SAMPLE_MS).unref();
  }

  /** @throws the driver's error when the database does not answer */
  static async start(place: Place): Promise<DatabaseClock> {
    const link = new PostgresLink(place, "clock");
    const first: ClockSample[] = [];
    while (first.length < FIRST_SAMPLES) {
      const sample = await sampleOf(link);
      if (sample) first.push(sample);
    }
    return new DatabaseClock(link, new FollowedClock(() => performance.now(), first));
  }

  wall(): number {
    return this.#clock.wall();
  }

  steady(): number {
    return this.#clock.steady();
  }

  close(): Promise<void> {
    clearInterval(this.#timer);
    return this.#link.close();
  }
}

async function sampleOf(link: PostgresLink): Promise<ClockSample | null> {
  const t1 = performance.now();
  const text = "SELECT extract(epoch FROM clock_timestamp())::float8 * 1000 AS at";
  const { rows } = await link.query<{ at: number }>({ text }, ANSWER_MS);
  const at = rows[0]?.at ?? Number.NaN;
  return clockSample({ t1, t2: at, t3: at, t4: performance.now() });
}
