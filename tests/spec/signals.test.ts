import { describe, expect, it } from "vitest";
import { POSTS } from "../../shared/protocol/posts.ts";
import { SIGNAL_KINDS } from "../../shared/protocol/signals.ts";
import { signalOf } from "../../shared/signals/all.ts";
import { bo, ed, fay, given, type Story } from "./given.ts";

const starting = () => given().upTo("starting");
const open = (story: Story, id: number) => story.state.signals.find((s) => s.id === id);
const ended = (story: Story, id: number) => story.state.ended.find((s) => s.id === id)?.is;
const raised = (story: Story) => story.last.events[0]?.seq ?? 0;

describe("addressees and answers", () => {
  it.each(SIGNAL_KINDS)("[SIG-1] %s is never addressed to its sender, except a cut", (kind) => {
    for (const from of POSTS) {
      const to = signalOf(kind).to(from);
      expect(to.includes(from)).toBe((kind === "cut" || kind === "cutAll") && from === "cockpit");
      for (const due of signalOf(kind).answer.due(from)) expect(to).toContain(due);
    }
    expect(signalOf(kind).to(null)).toEqual(POSTS);
  });

  it("[SIG-2] only addressed posts answer, and only as the kind allows", () => {
    const story = starting();
    story.send("fireGuard", "hold");
    const hold = raised(story);
    expect(story.answer("fireGuard", hold, "received").refusal?.reason).toBe("notAddressed");
    expect(story.answer("cockpit", hold, "willComply").refusal?.reason).toBe("answerNotAllowed");
    expect(story.does(ed, { type: "answer", signal: hold, answer: "received" }).refusal?.reason).toBe(
      "wrongPost",
    );
    expect(story.answer("cockpit", hold, "received").refusal).toBeUndefined();
  });

  it("[SIG-3] a post that is only informed may only answer received", () => {
    const story = starting();
    story.send("groundPower", "insertChocks");
    story.send("cockpit", "disconnectPower");
    const asked = story.openSignal("disconnectPower");
    expect(story.answer("supervisor", asked, "willComply").refusal).toMatchObject({
      reason: "notAddressed",
      posts: ["groundPower"],
    });
    expect(story.answer("supervisor", asked, "received").refusal).toBeUndefined();
    expect(open(story, asked)?.is).toBe("open");
  });

  it("[SIG-4] the answer received closes no request", () => {
    const story = starting().requested(3);
    const request = story.openSignal("readyToStart");
    story.answer("supervisor", request, "received");
    story.send("cockpit", "disconnectPower");
    const service = story.openSignal("disconnectPower");
    story.answer("groundPower", service, "received");
    story.send("fireGuard", "cutAll");
    const cut = raised(story);
    for (const post of ["cockpit", "groundPower", "supervisor"] as const) story.answer(post, cut, "received");
    expect([open(story, service)?.is, open(story, cut)?.is]).toEqual(["open", "open"]);
  });

  it("[SIG-5, SIG-8] a signal closes with the last due answer, not before, and never opens again", () => {
    const story = starting();
    story.send("fireGuard", "hold");
    const hold = raised(story);
    story.answer("cockpit", hold, "received");
    expect(story.answer("cockpit", hold, "received").refusal?.reason).toBe("alreadyDone");
    story.answer("groundPower", hold, "received");
    expect(open(story, hold)?.is).toBe("open");
    story.answer("supervisor", hold, "received");
    expect([open(story, hold), ended(story, hold)]).toEqual([undefined, "answered"]);
    expect(story.answer("supervisor", hold, "received").refusal).toMatchObject({
      reason: "signalClosed",
      found: "answered",
    });
    expect(story.state.holds.map((h) => h.id)).toEqual([hold]);
  });

  it("[SIG-6] the answer unable closes a request", () => {
    const story = starting();
    story.send("cockpit", "disconnectPower");
    const asked = story.openSignal("disconnectPower");
    story.answer("groundPower", asked, "unable");
    expect(ended(story, asked)).toBe("unable");
  });

  it.each(["fireGuard", "cockpit"] as const)(
    "[SIG-6, CUT-4] %s is unable to cut: the cut stays open and can still be done",
    (post) => {
      const story = starting().started(3);
      story.does(ed, { type: "send", kind: "cutAll" });
      const cut = raised(story);
      story.answer(post, cut, "unable");
      expect(open(story, cut)?.is).toBe("open");
      expect(story.send("supervisor", "resetCut", { ref: cut }).refusal?.reason).toBe("wrongEngineState");
      expect(story.answer("cockpit", cut, "done").refusal).toBeUndefined();
      expect(story.life(3)).toBe("shutDown");
      expect(story.send("supervisor", "resetCut", { ref: cut }).refusal).toBeUndefined();
    },
  );

  it("[SIG-7, CUT-4] a cut raised while the cockpit is vacant must be answered by the next holder", () => {
    const story = starting().started(3);
    story.say("cockpit", { type: "leavePost", post: "cockpit" });
    story.send("fireGuard", "cut", { engine: 3 });
    const cut = raised(story);
    expect(open(story, cut)?.due).toEqual(["cockpit", "groundPower", "supervisor"]);
    for (const post of ["groundPower", "supervisor"] as const) story.answer(post, cut, "received");
    story.does(fay, { type: "claimPost", post: "cockpit" });
    expect(story.does(fay, { type: "answer", signal: cut, answer: "done" }).refusal).toBeUndefined();
    expect(story.life(3)).toBe("shutDown");
  });

  it("[SIG-7] a hold must be answered by the posts that are held", () => {
    const story = given().manned(["cockpit", "supervisor"]);
    story.send("cockpit", "hold");
    expect(story.state.signals).toMatchObject([{ due: ["supervisor"] }]);
    const empty = given();
    empty.does(ed, { type: "send", kind: "hold" });
    expect(empty.state.signals).toEqual([]);
    expect(empty.state.holds).toHaveLength(1);
  });

  it("[SIG-7] a request of a vacant supervisor's post waits for the next one", () => {
    const story = starting();
    story.say("supervisor", { type: "leavePost", post: "supervisor" });
    story.requested(3);
    story.does(fay, { type: "claimPost", post: "supervisor" });
    expect(
      story.does(fay, { type: "answer", signal: story.openSignal("readyToStart"), answer: "unable" }).refusal,
    ).toBeUndefined();
  });

  it("[SIG-10] a kind that needs an engine needs one that the type has", () => {
    const story = starting();
    for (const engine of [5, 8]) {
      expect(story.send("fireGuard", "guardInPlace", { engine }).refusal).toMatchObject({
        reason: "noSuchEngine",
        found: "1 to 4",
      });
    }
    expect(story.send("fireGuard", "guardInPlace").refusal?.reason).toBe("engineNeeded");
  });

  it("[SIG-15] a repeated signal replaces the older one; a repeated stop does not", () => {
    const story = starting();
    story.volts(28);
    story.volts(27);
    expect(story.state.signals.filter((s) => s.kind === "powerConnected")).toHaveLength(1);
    story.send("cockpit", "disconnectPower");
    story.send("groundPower", "disconnectPower");
    expect(story.state.signals.filter((s) => s.kind === "disconnectPower")).toHaveLength(1);
    story.send("fireGuard", "hold");
    story.send("fireGuard", "hold");
    expect(story.state.signals.filter((s) => s.kind === "hold")).toHaveLength(2);
  });
});

describe("lateness", () => {
  it("[SIG-9] an unanswered stop is reminded at 2.5 s and raised at 5 s, then nothing more", () => {
    const story = starting();
    story.send("fireGuard", "hold");
    expect(story.waitMs(2_499).told("late")).toEqual([]);
    expect(story.waitMs(1).told("late")).toMatchObject([{ level: 1 }]);
    expect(story.waitMs(2_499).alerts).toEqual([]);
    story.waitMs(1);
    expect(story.told("late")).toMatchObject([{ level: 1 }, { level: 2 }]);
    expect(story.raised("unanswered")).toMatchObject([{ to: ["cockpit", "supervisor"] }]);
    story.wait(600);
    expect(story.told("late")).toHaveLength(2);
    expect(story.state.holds).toHaveLength(1);
  });

  it("[SIG-9] a late tick records both, in order", () => {
    const story = starting();
    story.send("fireGuard", "hold");
    story.unseen(60_000).waitMs(0);
    expect(story.told("late").map((f) => f.level)).toEqual([1, 2]);
  });

  it("[SIG-9] a signal answered in time is never late", () => {
    const story = starting();
    story.send("fireGuard", "hold");
    for (const post of ["cockpit", "groundPower", "supervisor"] as const)
      story.answer(post, story.state.holds[0]?.id ?? 0, "received");
    expect(story.wait(60).told("late")).toEqual([]);
  });

  it.each([
    ["clearToStart", 5],
    ["disconnectPower", 15],
  ] as const)("[SIG-9] %s reminds after %d s", (kind, seconds) => {
    const story = starting();
    if (kind === "clearToStart") story.cleared(3);
    else story.send("cockpit", kind);
    expect(story.waitMs(seconds * 1000 - 1).told("late")).toEqual([]);
    expect(story.waitMs(1).told("late")).toMatchObject([{ level: 1 }]);
  });

  it("[SIG-9] a request that the supervisor leaves unanswered is reminded, never granted", () => {
    const story = starting().requested(3).wait(3600);
    expect(story.told("late")).toMatchObject([{ level: 1 }]);
    expect(story.life(3)).toBe("requested");
  });
});

describe("witnessed hand signals", () => {
  const seen = (post: "fireGuard" | "cockpit" | "groundPower") =>
    ({ channel: "hand", seenFrom: post }) as const;

  it("[SIG-11] the supervisor records the fingers the pilot shows", () => {
    const story = starting();
    expect(
      story.send("supervisor", "readyToStart", { engine: 3, ...seen("cockpit") }).refusal,
    ).toBeUndefined();
    expect(story.life(3)).toBe("requested");
    expect(story.state.signals).toMatchObject([
      { from: "cockpit", by: { post: "supervisor", seenFrom: "cockpit" }, due: ["supervisor"] },
    ]);
  });

  it("[SIG-11, CON-15] the cockpit records the guard's signals", () => {
    const story = starting();
    story.send("cockpit", "guardInPlace", { engine: 3, ...seen("fireGuard") });
    story.send("cockpit", "arcClear", { engine: 3, ...seen("fireGuard") });
    expect(story.state.guard).toMatchObject({ engine: 3, post: "cockpit", seenFrom: "fireGuard" });
    expect(story.state.arcs[3]?.clear).toBe(true);
  });

  it("[SIG-11] a record is refused on the panel's channel, from an observer and for a vacant post", () => {
    const story = starting();
    const arc = { type: "send", kind: "guardInPlace", engine: 3 } as const;
    expect(story.say("cockpit", { ...arc, seenFrom: "fireGuard" }).refusal?.reason).toBe("notWitnessable");
    expect(story.does(ed, { ...arc, ...seen("fireGuard") }).refusal?.reason).toBe("wrongPost");
    story.say("fireGuard", { type: "leavePost", post: "fireGuard" });
    expect(story.say("cockpit", { ...arc, ...seen("fireGuard") }).refusal).toMatchObject({
      reason: "postVacant",
      posts: ["fireGuard"],
    });
  });

  it("[SIG-12] a witnessed request of the cockpit gives no leave: it still authorises by itself", () => {
    const story = starting();
    story.send("groundPower", "disconnectPower", seen("cockpit"));
    expect(story.state.authorities.disconnectPower).toBeNull();
    story.send("groundPower", "powerDisconnected");
    expect(story.state.groundPower).toMatchObject({ is: "off", lost: true });
  });

  it("[SIG-13] a stop with an impossible witness counts as the sender's own", () => {
    const story = starting();
    story.send("fireGuard", "hold", { seenFrom: "fireGuard", channel: "hand" });
    story.send("fireGuard", "hold", { seenFrom: "cockpit" });
    expect(story.state.holds.map((h) => h.by.seenFrom)).toEqual([null, null]);
    story.send("fireGuard", "hold", { seenFrom: "cockpit", channel: "hand" });
    expect(story.state.holds.at(-1)?.by).toMatchObject({ post: "fireGuard", seenFrom: "cockpit" });
  });

  it("[SIG-14] the post that recorded a stop need not answer it", () => {
    const story = starting();
    story.send("supervisor", "hold", { seenFrom: "fireGuard", channel: "hand" });
    expect(story.state.signals).toMatchObject([{ from: "fireGuard", due: ["cockpit", "groundPower"] }]);
  });

  it("[SIG-11] the record names the witness", () => {
    const story = starting();
    story.send("supervisor", "arcNotClear", { engine: 2, ...seen("fireGuard") });
    expect(story.last.events[0]?.actor).toMatchObject({ post: "supervisor" });
    expect(story.told("sent").at(-1)).toMatchObject({ seenFrom: "fireGuard", channel: "hand" });
    expect(bo.id).toBe(story.state.posts.fireGuard?.id);
  });
});
