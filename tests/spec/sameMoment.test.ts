import { describe, expect, it } from "vitest";
import { later } from "../../shared/aircraft/later.ts";
import { newestCount } from "../../shared/aircraft/newestCount.ts";
import { standingFor } from "../../shared/aircraft/standingFor.ts";
import { actionSchema } from "../../shared/protocol/commands.ts";
import { isOver, type SessionState } from "../../shared/session/state.ts";
import { Chance } from "../sim/chance.ts";
import { FOUR } from "./aircraft.ts";
import { START, Story } from "./given.ts";
import { RecordLog } from "./recordLog.ts";
import { tried } from "./walk.ts";

const RUNS = 60;
const STEPS = 60;
const DIE = 1 << 20;
/** Nothing that is said in a few steps is told so often. */
const ENOUGH = 200;

const count = (seq: number, blades: number, resistance = false) => ({
  by: { at: 1_000, seq, post: "groundPower" as const, name: "Cy", seenFrom: null },
  ...{ blades, resistance },
});

/** Two sessions of one aircraft, and its record, to which what they add comes late, as it does to a server's. */
class Late {
  readonly one = new Story({ session: "one" }).manned();
  readonly other = new Story({ session: "other" });
  readonly #record = new RecordLog("CH-TST", FOUR.engines.length, START);
  readonly #sent: SessionState[] = [];

  send({ state }: Story): void {
    this.#sent.push(state);
  }

  /** Lets everything arrive. Returns how often a session was told something. */
  arrive(at = "the record"): number {
    let told = 0;
    for (let state = this.#sent.shift(); state; state = this.#sent.shift()) {
      this.#record.takes(state, START);
      for (const story of [this.one, this.other]) {
        const { record } = this.#record;
        if (story.hear(standingFor(record, story.state.id)).events.length === 0) continue;
        told += 1;
        this.send(story);
      }
      if (told > ENOUGH) throw new Error(`${at} comes to no end`);
    }
    return told;
  }
}

describe("reports of one millisecond", () => {
  it("[STN-15] of two counts of one millisecond both sides take the same one, and one with resistance first", () => {
    const [first, second, stiff] = [count(32, 9), count(34, 9), count(30, 3, true)];
    expect(newestCount(first, second)).toBe(newestCount(second, first));
    expect(newestCount(stiff, second)).toBe(stiff);
    expect(newestCount(second, stiff)).toBe(stiff);
    expect(newestCount(null, second)).toBe(second);
    const after = { ...second, by: { ...second.by, at: 1_001 } };
    expect(newestCount(stiff, after)).toBe(after);
    expect(later(after, stiff)).toBe(after);
  });

  it("[STN-15] two counts in one millisecond come to an end, and both sessions hold the same one", () => {
    const late = new Late();
    const { one, other } = late;
    one.upTo("starting");
    one.send("groundPower", "handlePropeller", { engine: 1 });
    one.answer("cockpit", one.state.seq, "authorise");
    late.arrive();
    for (const blades of [9, 11, 10]) {
      one.say("groundPower", { type: "countBlades", engine: 1, blades, resistance: false });
      late.send(one);
    }
    late.arrive();
    expect(one.state.engines[0]?.blades).not.toBeNull();
    expect(other.state.engines[0]?.blades).toEqual(one.state.engines[0]?.blades);
  });

  it(`[STN-15] ${RUNS} random pairs of sessions that never see a clock move come to an end`, () => {
    let told = 0;
    for (let seed = 1; seed <= RUNS; seed += 1) {
      const chance = new Chance(seed);
      const late = new Late();
      const stories = [late.one, late.other];
      for (let step = 0; step < STEPS; step += 1) {
        const story = stories[chance.below(2)];
        if (!story || isOver(story.state)) continue;
        const dice = [chance.below(DIE), chance.below(DIE), chance.below(DIE), chance.below(DIE)] as const;
        const { who, action } = tried(story.state, dice, story.now);
        if (!actionSchema.safeParse(action).success) continue;
        story.does(who, action);
        late.send(story);
        if (chance.is(0.4)) told += late.arrive(`seed ${seed}, step ${step}`);
      }
    }
    expect(told).toBeGreaterThan(RUNS);
  });
});
