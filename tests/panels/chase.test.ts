import { expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import { askAgain, ownAnswers } from "../../web/posts/supervisor/chase.ts";
import { given, type Story } from "../spec/given.ts";

const owed = ({ state, now }: Story, post: Post, say: string) => {
  const found = askedOf(state, post, now).find((a) => a.say === say);
  if (!found) throw new Error(`${post} is not asked ${say}`);
  return found;
};

it("[PAN-65] the supervisor asks again with the same signal, which is accepted and replaces the earlier one", () => {
  const story = given({}).upTo("groundPower");
  story.send("supervisor", "connectPower");
  const first = owed(story, "cockpit", "answer.connectPower");
  const again = askAgain(story.state, "supervisor", first);
  expect(again).toEqual({ type: "send", kind: "connectPower", channel: "panel" });
  story.wait(5);
  expect(again && story.say("supervisor", again).refusal).toBeUndefined();
  const open = story.state.signals.filter((s) => s.kind === "connectPower");
  expect(open).toHaveLength(1);
  expect(open[0]?.id).not.toBe(first.signal);
  expect(owed(story, "cockpit", "answer.connectPower").since).toBe(story.now);
  expect(story.state.ended.some((s) => s.id === first.signal)).toBe(true);
});

it("[PAN-65] what another post asked, a stop and a clearance are not sent again by the supervisor", () => {
  const story = given({}).upTo("groundPower");
  story.send("groundPower", "connectPower");
  expect(askAgain(story.state, "supervisor", owed(story, "cockpit", "answer.connectPower"))).toBeNull();
  expect(askAgain(story.state, null, owed(story, "cockpit", "answer.connectPower"))).toBeNull();

  const held = given({}).upTo("starting");
  held.send("supervisor", "hold");
  expect(askAgain(held.state, "supervisor", owed(held, "cockpit", "answer.hold"))).toBeNull();

  const start = given({}).upTo("starting");
  start.cleared(start.state.order[0] ?? 0);
  expect(askAgain(start.state, "supervisor", owed(start, "cockpit", "answer.clearToStart"))).toBeNull();
});

it("[PAN-65] the supervisor's own answer is offered for what both are asked, and for nothing that is the other's own", () => {
  const story = given({}).upTo("starting");
  const first = story.state.order[0] ?? 0;
  story.started(first);
  story.send("fireGuard", "cut", { engine: first });
  const cut = story.openSignal("cut");
  story.answer("cockpit", cut, "done");
  const ends = askedOf(story.state, "cockpit", story.now).flatMap((a) =>
    ownAnswers(story.state, "supervisor", a, story.now),
  );
  expect(ends.map((c) => c.word)).toEqual(["resetCut"]);
  const [end] = ends;
  expect(end && story.say("supervisor", end.draft as Parameters<Story["say"]>[1]).refusal).toBeUndefined();
  expect(story.state.cuts).toEqual([]);

  const asked = given({}).upTo("starting");
  asked.requested(first);
  const guard = owed(asked, "fireGuard", "guardInPlace");
  expect(ownAnswers(asked.state, "supervisor", guard, asked.now)).toEqual([]);
});
