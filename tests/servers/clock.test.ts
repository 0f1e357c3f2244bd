import { describe, expect, it } from "vitest";
import { ServerClock } from "../../server/clock.ts";
import { FollowedClock } from "../../server/store/postgres/followed-clock.ts";

const BASE = Date.UTC(2026, 5, 1);

/** Two servers whose own clocks started at other times, and run at other rates, than the database's clock. */
class Machines {
  /** The database's own time. */
  database = BASE;
  #passed = 0;
  readonly #rates: readonly number[];

  constructor(...rates: number[]) {
    this.#rates = rates;
  }

  own(n: number): number {
    return 1_000 * (n + 1) + this.#passed * (this.#rates[n] ?? 1);
  }

  /** Returns what server `n` reads when it asks, over a connection whose whole delay is on one side. */
  sample(n: number, delay = 0) {
    return { offset: this.database - this.own(n) + delay / 2, delay };
  }

  pass(ms: number): void {
    this.#passed += ms;
    this.database += ms;
  }
}

describe("servers that follow one clock", () => {
  it("[CLU-9] agree on the time although their own clocks drift apart, and never mistake drift for a clock that was set", () => {
    // 100 parts in a million is twice the error of a quartz clock.
    const machines = new Machines(1.0001, 0.9999);
    const followed = [0, 1].map((n) => new FollowedClock(() => machines.own(n), [machines.sample(n)]));
    const clocks = followed.map((clock) => new ServerClock(clock, 0));
    for (let second = 0; second < 86_400; second += 2) {
      machines.pass(2_000);
      followed.forEach((clock, n) => void clock.add(machines.sample(n, second % 3)));
      for (const clock of clocks) {
        expect(clock.step()).toBeNull();
        expect(Math.abs(clock.now() - machines.database)).toBeLessThan(5);
      }
    }
  });

  it("[CLU-9] trust the quickest answer: a slow one changes nothing", () => {
    const machines = new Machines(1);
    const clock = new FollowedClock(() => machines.own(0), [machines.sample(0, 1)]);
    for (let n = 0; n < 7; n += 1) clock.add(machines.sample(0, 300));
    expect(Math.abs(clock.wall() - machines.database)).toBeLessThan(1);
  });

  it.each([90_000, -90_000])("[CLU-9] notice together that the database's clock was set by %i ms", (by) => {
    const machines = new Machines(1, 1);
    const followed = [0, 1].map((n) => new FollowedClock(() => machines.own(n), [machines.sample(n)]));
    const clocks = followed.map((clock) => new ServerClock(clock, 0));
    machines.pass(10_000);
    machines.database += by;
    followed.forEach((clock, n) => void clock.add(machines.sample(n, 1)));
    for (const clock of clocks) {
      expect(Math.abs((clock.step() ?? 0) - by)).toBeLessThan(2);
      expect(clock.step()).toBeNull();
      expect(Math.abs(clock.now() - machines.database)).toBeLessThan(2);
    }
  });

  it("[CLU-9] never run backwards while they follow", () => {
    const machines = new Machines(1.001);
    const clock = new FollowedClock(() => machines.own(0), [machines.sample(0)]);
    let last = clock.steady();
    for (let n = 0; n < 10_000; n += 1) {
      machines.pass(1);
      if (n % 200 === 0) clock.add(machines.sample(0));
      const now = clock.steady();
      expect(now).toBeGreaterThan(last);
      last = now;
    }
  });
});
