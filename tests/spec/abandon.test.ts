import { describe, expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import type { SessionState } from "../../shared/session/state.ts";
import { ada, bo, di, ed, given, onDevice, type Story } from "./given.ts";

const abandon = { type: "abandon", reason: "storm" } as const;
const asked = (story: Story, post: Post) =>
  askedOf(story.state, post, story.now).filter((a) => a.say === "abandon");
/** The limit within which the second person agrees. */
const limitOf = ({ type }: SessionState) => type.timing.override.value;

/** Things on which somebody other than the supervisor depends. */
const DEPENDED_ON: readonly [what: string, make: (story: Story) => void][] = [
  ["an observer's hold", (s) => void s.does(ed, { type: "send", kind: "hold" })],
  ["the cockpit's cut", (s) => void s.send("cockpit", "cut", { engine: 2 })],
  [
    "hands at a propeller",
    (s) => {
      s.send("fireGuard", "handlePropeller", { engine: 2 });
      s.answer("cockpit", s.openSignal("handlePropeller"), "authorise");
    },
  ],
  ["the crew's leave to connect", (s) => void s.send("cockpit", "connectPower")],
];

describe("abandoning what others depend on", () => {
  it.each(DEPENDED_ON)("[STG-18] %s: takes cockpit and supervisor on two devices", (_what, make) => {
    const story = given().upTo("groundPower");
    make(story);
    expect(story.say("supervisor", abandon).events.map((e) => e.fact.type)).toContain("abandonAsked");
    expect(story.state.stage).toBe("groundPower");
    const again = { reason: "secondPersonNeeded", found: "Di", posts: ["cockpit", "supervisor"] };
    expect(story.say("supervisor", abandon).refusal).toMatchObject(again);
    expect(asked(story, "supervisor")).toEqual([]);
    expect(asked(story, "fireGuard")).toEqual([]);
    expect(askedOf(story.state, "supervisor", story.now).map((a) => a.say)).toContain("abandonWaits");
    const [ask] = asked(story, "cockpit");
    expect(ask).toMatchObject({ from: "Di", detail: { is: "reason", words: "storm" } });
    expect(ask?.choices.map((c) => c.draft)).toEqual([abandon]);
    expect(story.say("cockpit", abandon).refusal).toBeUndefined();
    expect(story.state.stage).toBe("abandoned");
  });

  it("[STG-18] the second person on the first one's device is refused", () => {
    const story = given().upTo("secure");
    story.does(ed, { type: "send", kind: "hold" });
    story.does(onDevice(ada, "one-tablet"), { type: "claimPost", post: "cockpit" });
    story.does(onDevice(di, "one-tablet"), { type: "claimPost", post: "supervisor" });
    expect(story.does(onDevice(di, "one-tablet"), abandon).refusal).toBeUndefined();
    expect(story.does(onDevice(ada, "one-tablet"), abandon).refusal).toMatchObject({
      reason: "secondPersonNeeded",
    });
    expect(story.state.stage).toBe("secure");
  });

  it.each([
    ["after the type's time", (s: Story) => void s.wait(limitOf(s.state))],
    ["after a new stop", (s: Story) => void s.does(bo, { type: "send", kind: "hold" })],
  ])("[STG-18] %s the request is over, and the next one begins anew", (_when, pass) => {
    const story = given().upTo("secure");
    story.does(ed, { type: "send", kind: "hold" });
    story.say("supervisor", abandon);
    pass(story);
    expect(asked(story, "cockpit")).toEqual([]);
    story.say("cockpit", abandon);
    expect(story.state.stage).toBe("secure");
    expect(asked(story, "supervisor")).toHaveLength(1);
    story.say("supervisor", abandon);
    expect(story.state.stage).toBe("abandoned");
  });

  it("[STG-18] one person alone abandons where only their own hold stands", () => {
    const story = given().upTo("secure");
    story.send("supervisor", "hold");
    expect(story.say("supervisor", abandon).refusal).toBeUndefined();
    expect(story.state.stage).toBe("abandoned");
  });
});
