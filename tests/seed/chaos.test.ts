import { describe, expect, it } from "vitest";
import { personAt, Stage } from "../../seed/crew/stage.ts";
import { demo } from "../../seed/demo-data.ts";
import { chance } from "../../shared/partners/chance.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { isOver } from "../../shared/session/state.ts";
import { anything } from "./chaos.ts";
import { playOut } from "./stage.ts";

/** Stages in which the trouble begins. */
const FROM = ["brief", "starting", "warmUp", "release"] as const;
const SEEDS = Array.from({ length: 8 }, (_, i) => i + 1);

describe.each(demo.types.map((t) => [t.id, t] as const))("%s", (_id, type) => {
  it.each(["groundPower", "batteries"] as const)(
    "[SED-7] [ASK-2] [ASK-5] whatever is answered nothing asked is refused, and after any trouble partners bring a start on %s to its end",
    (powerSource) => {
      for (const seed of SEEDS) {
        const stage = new Stage(type, powerSource);
        stage.everyoneClaims();
        playOut(stage, { seed, pace: 1, cart: "Knocker" }, FROM[seed % FROM.length]);
        for (let turn = 0; turn < 150 && !isOver(stage.state); turn += 1) {
          stage.now += Math.ceil(chance(seed, turn, "wait") * 6_000);
          stage.catchUp();
          const done = anything(stage.state, seed, turn, stage.now);
          if (!done) continue;
          const before = stage.state;
          const { refusal } = stage.do(personAt(done.post), done.action);
          if (!done.asked) continue;
          const place = `seed ${seed}, turn ${turn}, ${done.post}: ${JSON.stringify(done.action)} in ${before.stage}`;
          expect(refusal, place).toBeUndefined();
        }
        for (const post of POSTS) {
          if (stage.state.posts[post] === null) stage.do(personAt(post), { type: "claimPost", post });
        }
        const left = playOut(stage, { seed, pace: 1, cart: "Knocker" });
        expect(left, `seed ${seed}`).toBeNull();
      }
    },
  );
});
