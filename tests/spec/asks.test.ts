import { describe, expect, it } from "vitest";
import { type Choice, fill } from "../../shared/asks/ask.ts";
import { askedOf } from "../../shared/asks/asked.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { isAsked, SIGNAL_KINDS } from "../../shared/protocol/signals.ts";
import { signalOf } from "../../shared/signals/all.ts";
import { ed, fay, given, type Story } from "./given.ts";

const starting = () => given().upTo("starting");
const asks = (story: Story, post: Post) => askedOf(story.state, post, story.now);
const says = (story: Story, post: Post) => asks(story, post).map((a) => a.say);
const choice = (story: Story, post: Post, say: string, word: string): Choice => {
  const found = asks(story, post)
    .find((a) => a.say === say)
    ?.choices.find((c) => c.word === word);
  if (!found)
    throw new Error(`${post} is not offered ${word} to ${say}, but ${says(story, post).join(", ")}`);
  return found;
};

describe("asks", () => {
  it("[ASK-1] danger comes before all else", () => {
    const story = starting();
    story.cleared(3);
    story.send("fireGuard", "hold");
    story.send("groundPower", "fire", { engine: 2 });
    expect(
      asks(story, "cockpit")
        .map((a) => [a.say, a.weight])
        .slice(0, 2),
    ).toEqual([
      ["answer.hold", 0],
      ["answer.fire", 0],
    ]);
  });

  it("[ASK-1] the same state and time give the same asks", () => {
    const story = starting().requested(3);
    for (const post of POSTS) expect(asks(story, post)).toEqual(asks(story.copy(), post));
  });

  it("[ASK-4] a read-back is sent only with the engine's number that the person entered", () => {
    const story = starting();
    const signal = story.cleared(3);
    const readBack = choice(story, "cockpit", "answer.clearToStart", "readBack");
    expect(readBack.need).toEqual({ is: "engine" });
    expect(readBack.draft).not.toHaveProperty("engine");
    expect(fill(readBack, {})).toBeNull();
    expect(fill(readBack, { engine: 2 })).toMatchObject({ signal, answer: "readBack", engine: 2 });
  });

  it("[ASK-4] a report is sent only with its figure, and a release for another person only with its reason", () => {
    const story = given().upTo("secure");
    const brakes = choice(story, "cockpit", "brakesSet", "brakesSet");
    expect(fill(brakes, {})).toBeNull();
    expect(fill(brakes, { figure: { value: 900, unit: "psi" } })).toMatchObject({ pressure: { value: 900 } });
    story.does(ed, { type: "send", kind: "hold" });
    const release = choice(story, "supervisor", "absentHold", "releaseFor");
    expect(fill(release, {})).toBeNull();
    expect(fill(release, { reason: "he left" })).toMatchObject({ kind: "release", note: "he left" });
  });

  it("[ASK-6] an unmet condition removes the key that clears, and the ask names the condition", () => {
    const story = starting().requested(3);
    const waits = asks(story, "supervisor").find((a) => a.key === "waits:3");
    expect(waits).toMatchObject({
      say: "clearWaits",
      detail: { is: "unmet", conditions: ["guardInPlace", "arcClear"] },
    });
    expect(waits?.choices.map((c) => c.word)).toEqual(["unable"]);
    story.guarded(3);
    expect(
      asks(story, "supervisor")
        .find((a) => a.key === "clear:3")
        ?.choices.map((c) => c.word),
    ).toEqual(["clearToStart", "unable"]);
  });

  it.each(SIGNAL_KINDS.filter((k) => k !== "readyToStart"))(
    "[ASK-3] %s is among the asked kinds exactly when an answer to it is due",
    (kind) => {
      const due = [null, ...POSTS].flatMap((from) => signalOf(kind).answer.due(from));
      expect(isAsked(kind)).toBe(due.length > 0);
    },
  );

  it("[ASK-7] a session that is over asks nothing", () => {
    const story = starting().requested(3);
    story.say("cockpit", { type: "abandon", reason: "weather" });
    for (const post of POSTS) expect(asks(story, post)).toEqual([]);
  });

  it("[ASK-5] the cockpit is still asked for a cut after it answered unable", () => {
    const story = starting().started(3);
    const cut = story.send("supervisor", "cutAll").events[0]?.seq ?? 0;
    story.answer("cockpit", cut, "unable");
    expect(choice(story, "cockpit", "answer.cutAll", "stopped").draft).toMatchObject({ answer: "done" });
    expect(says(story, "supervisor")).not.toContain("resetCut");
    story.answer("cockpit", cut, "done");
    expect(says(story, "supervisor")).toContain("resetCut");
  });

  it("[ASK-5, HLD-3] the hold of a guard who left is asked of the next guard and of the supervisor", () => {
    const story = starting();
    story.send("fireGuard", "hold");
    expect(says(story, "fireGuard")).toContain("ownHold");
    expect(says(story, "supervisor")).not.toContain("absentHold");
    story.say("fireGuard", { type: "leavePost", post: "fireGuard" });
    story.does(fay, { type: "claimPost", post: "fireGuard" });
    expect(says(story, "fireGuard")).toContain("absentHold");
    expect(says(story, "supervisor")).toContain("absentHold");
  });

  it("[ASK-5] a fire asks another person for the second report that it is out", () => {
    const story = starting();
    const fire = story.send("groundPower", "fire").events[0]?.seq ?? 0;
    story.send("fireGuard", "fireOut", { ref: fire });
    expect(says(story, "fireGuard")).not.toContain("fireOutSecond");
    for (const post of ["cockpit", "supervisor"] as const)
      expect(says(story, post)).toContain("fireOutSecond");
  });
});
