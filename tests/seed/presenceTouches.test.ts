import { describe, expect, it } from "vitest";
import { personAt, START, Stage } from "../../seed/crew/stage.ts";
import { demo } from "../../seed/demo-data.ts";
import { type Intent, intend, type Move, playPost } from "../../shared/partners/play.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { nextDeadline } from "../../shared/session/deadline.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { playOut } from "./stage.ts";
import { withoutCard } from "./withoutCard.ts";

const four = demo.types.find((t) => t.id === "kestle-four") as AircraftType;
const SEED = 7;
const script = { seed: SEED, pace: 1, cart: "Knocker" };
const LONGEST_MS = 3_600_000;
const LOOK_MS = 1_000;

/** True for what a running starter, an engine or a read-back leaves no time to put off. */
function isHurried({ action }: Move): boolean {
  if (action.type === "answer") return action.answer === "readBack";
  if (action.type === "reading") return action.gauge === "oilPressure";
  return action.type === "send" && ["cranking", "caught"].includes(action.kind);
}

/** Four partners who leave `pauseS` seconds between two touches, from the first request to the last stable engine. */
function played(type: AircraftType, pauseS: number): Stage {
  const stage = new Stage(type, "groundPower");
  stage.everyoneClaims();
  playOut(stage, script, "starting");
  const last = new Map<Post, number>();
  const intents = new Map<Post, Intent | null>();
  while (stage.state.stage === "starting" && stage.now < START + LONGEST_MS) {
    let next = stage.now + LOOK_MS;
    for (const post of POSTS) {
      const move = playPost(stage.state, post, stage.now, script);
      const intent = intend(intents.get(post) ?? null, move, stage.now);
      intents.set(post, intent);
      if (!move || !intent) continue;
      const rested = isHurried(move) ? 0 : (last.get(post) ?? 0) + pauseS * 1000;
      const at = Math.max(intent.at, rested);
      if (at > stage.now) {
        next = Math.min(next, at);
        continue;
      }
      intents.set(post, null);
      last.set(post, stage.now);
      stage.do(personAt(post), move.action);
    }
    const due = nextDeadline(stage.state);
    if (due !== null && due > stage.now) next = Math.min(next, due);
    stage.now = Math.max(Math.ceil(next), stage.now + 1);
    stage.catchUp();
  }
  return stage;
}

/** Touches of each post between the request of an engine and its stable report: all, and those only for presence. */
function touches(stage: Stage): Map<string, { all: number; present: number }> {
  const counted = new Map<string, { all: number; present: number }>();
  let engine: number | null = null;
  for (const { actor, fact } of stage.events) {
    if (fact.type === "sent" && fact.kind === "readyToStart") engine = fact.engine ?? null;
    const counts = fact.type !== "delivered" && fact.type !== "refused";
    if (engine !== null && actor.kind === "person" && actor.post !== null && counts) {
      const key = `${engine} ${actor.post}`;
      const before = counted.get(key) ?? { all: 0, present: 0 };
      const present = before.present + (fact.type === "present" ? 1 : 0);
      counted.set(key, { all: before.all + 1, present });
    }
    if (fact.type === "sent" && fact.kind === "started") engine = null;
  }
  return counted;
}

describe("a normal start of four engines by a slow crew", () => {
  it.each([
    ["with the card", 16, 2],
    ["with the card", 31, 3],
    ["without a card", 31, 2],
  ] as const)(
    "[PRS-6] %s, %d s between touches: %d touches an engine for presence at most, no hold",
    (card, pauseS, touchesAtMost) => {
      const stage = played(card === "with the card" ? four : withoutCard(four), pauseS);
      expect(stage.state.engines.map((e) => e.life.is)).toEqual(["stable", "stable", "stable", "stable"]);
      const of = touches(stage);
      expect(of.size).toBe(16);
      const most = Math.max(...[...of.values()].map(({ present }) => present));
      expect(most, "touches only for presence").toBeLessThanOrEqual(touchesAtMost);
      expect(stage.events.filter((e) => e.fact.type === "silenceHeld")).toEqual([]);
      expect(stage.state.holds).toEqual([]);
    },
  );
});
