import { describe, expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import { given, type Story } from "../spec/given.ts";
import { applying } from "./types.ts";

const TYPE = applying("bladesCounted");
const inSecure = () => given({ type: TYPE }).upTo("secure");
const starting = () => given({ type: applying() }).upTo("starting");
const count = (story: Story, engine: number, blades = 9, resistance = false, post: Post = "groundPower") =>
  story.say(post, { type: "countBlades", engine, blades, resistance }).refusal?.reason;
const hands = (story: Story, engine: number) => story.send("cockpit", "handlePropeller", { engine });

describe("hands on a propeller", () => {
  it("[HND-1] are asked for by the ground, and are on only when the cockpit has authorised them", () => {
    const story = inSecure();
    story.send("groundPower", "handlePropeller", { engine: 2 });
    expect(story.state.handling).toBeNull();
    expect(count(story, 2)).toBe("noAuthority");
    const question = story.openSignal("handlePropeller");
    expect(story.answer("fireGuard", question, "authorise").refusal?.reason).toBe("notAddressed");
    expect(story.answer("cockpit", question, "received").refusal).toBeUndefined();
    expect(story.state.handling).toBeNull();
    story.answer("cockpit", question, "authorise");
    expect(story.state.handling?.engine).toBe(2);
    expect(count(story, 2)).toBeUndefined();
  });

  it("[HND-1, SIG-12] need the cockpit's own leave: its hand signal recorded by another gives none", () => {
    const story = inSecure();
    story.send("groundPower", "handlePropeller", { engine: 2, channel: "hand", seenFrom: "cockpit" });
    expect(story.state.handling).toBeNull();
  });

  it("[HND-2] are on one propeller at a time", () => {
    const story = inSecure();
    hands(story, 2);
    expect(hands(story, 3).refusal?.reason).toBe("alreadyDone");
    expect(story.send("fireGuard", "propellerFree", { engine: 3 }).refusal?.reason).toBe("nothingOpen");
    expect(story.send("fireGuard", "propellerFree", { engine: 2 }).refusal).toBeUndefined();
    expect(hands(story, 3).refusal).toBeUndefined();
  });

  it("[HND-2] are refused at an engine that turns, and while any engine is cleared or cranking", () => {
    const story = starting().started(3);
    expect(hands(story, 3).refusal).toMatchObject({ reason: "wrongEngineState", engine: 3 });
    expect(hands(story, 1).refusal).toBeUndefined();
    story.send("groundPower", "propellerFree", { engine: 1 });
    story.cleared(4);
    expect(hands(story, 1).refusal).toMatchObject({ reason: "wrongEngineState", engine: 4 });
    story.answer("cockpit", story.openSignal("clearToStart"), "readBack", 4);
    story.send("cockpit", "cranking", { engine: 4 });
    expect(hands(story, 1).refusal).toMatchObject({ reason: "wrongEngineState", engine: 4 });
  });

  it("[HND-3] bar every clearance while they are on, and stay on when a stop comes", () => {
    const story = starting();
    hands(story, 1);
    const hold = story.send("supervisor", "hold").events[0]?.seq ?? 0;
    story.send("supervisor", "release", { ref: hold });
    expect(story.state.handling?.engine).toBe(1);
    story.requested(3).guarded(3);
    const clear = () =>
      story.send("supervisor", "clearToStart", { engine: 3 }).refusal?.unmet?.map((u) => u.id);
    expect(clear()).toEqual(["handsOffPropellers"]);
    story.send("groundPower", "propellerFree", { engine: 1 });
    expect(clear()).toBeUndefined();
  });

  it("[HND-3] stay on when posts change hands; either ground post reports them off", () => {
    const story = starting();
    hands(story, 1);
    for (const post of ["groundPower", "fireGuard", "cockpit"] as const) {
      story.say(post, { type: "leavePost", post });
      story.say(post, { type: "claimPost", post });
    }
    story.restart();
    expect(story.state.handling?.engine).toBe(1);
    expect(story.send("cockpit", "propellerFree", { engine: 1 }).refusal?.reason).toBe("wrongPost");
    story.send("fireGuard", "propellerFree", { engine: 1 });
    expect(story.state.handling).toBeNull();
  });

  it("[HND-3, FIR-4, TRN-5] do not keep the crew from cranking in a fire, except at their own propeller", () => {
    const story = starting();
    hands(story, 1);
    story.send("fireGuard", "fire", { engine: 1, place: "induction" });
    story.send("fireGuard", "fire", { engine: 2, place: "induction" });
    const holds = () => story.state.holds.length;
    const under = story.copy();
    under.send("cockpit", "cranking", { engine: 1 });
    expect([under.state.holds.length, under.told("sent").at(-1)?.kind]).toEqual([1, "turning"]);
    expect(story.send("cockpit", "cranking", { engine: 2 }).refusal).toBeUndefined();
    story.send("groundPower", "propellerFree", { engine: 1 });
    const beside = story.copy();
    beside.send("cockpit", "cranking", { engine: 1 });
    expect(beside.told("sent").at(-1)?.kind).toBe("turning");
    story.send("cockpit", "startAbandoned", { engine: 2 });
    expect(story.send("cockpit", "cranking", { engine: 1 }).refusal).toBeUndefined();
    expect(holds()).toBe(0);
  });

  it("[HND-4] allow a blade count only at their own propeller", () => {
    const story = inSecure();
    hands(story, 2);
    expect(count(story, 3)).toBe("noAuthority");
    expect(count(story, 9 - 1)).toBe("noSuchEngine");
    expect(count(story, 2, 9, false, "fireGuard")).toBeUndefined();
    story.send("groundPower", "propellerFree", { engine: 2 });
    expect(count(story, 2)).toBe("noAuthority");
  });

  it.each([
    ["a hold", (s: Story) => s.send("supervisor", "hold")],
    ["a fire", (s: Story) => s.send("supervisor", "fire")],
    [
      "a clearance",
      (s: Story) => {
        s.requested(3).guarded(3);
        return s.send("supervisor", "clearToStart", { engine: 3 });
      },
    ],
  ] as const)(
    "[HND-5] %s ends an open request for hands on: an answer that crosses it is refused",
    (_what, end) => {
      const story = starting();
      story.send("groundPower", "handlePropeller", { engine: 1 });
      const question = story.openSignal("handlePropeller");
      expect(end(story).refusal).toBeUndefined();
      expect(story.answer("cockpit", question, "authorise").refusal).toMatchObject({
        reason: "signalClosed",
        found: "revoked",
      });
      expect(story.state.handling).toBeNull();
    },
  );

  it("[MCN-8] keep the session in secure while they are on, or while blades are not counted", () => {
    const story = inSecure();
    const missing = () => story.say("supervisor", { type: "advance", to: "powerUp" }).refusal?.missing ?? [];
    const blades = () => missing().filter((m) => m.startsWith("blades") || m.startsWith("handling"));
    expect(blades()).toEqual(["blades:1", "blades:2", "blades:3", "blades:4"]);
    for (const n of [1, 2, 3, 4]) {
      hands(story, n);
      expect(blades()).toEqual([`handling:${n}`]);
      expect(count(story, n)).toBeUndefined();
      story.send("groundPower", "propellerFree", { engine: n });
    }
    expect(blades()).toEqual([]);
  });

  it("[MCN-8, ASK-5] are asked of the guard on batteries with nobody at ground power: to count, and to report hands off", () => {
    const story = given({ type: TYPE, powerSource: "batteries" }).upTo("secure");
    story.say("groundPower", { type: "leavePost", post: "groundPower" });
    const asked = () => askedOf(story.state, "fireGuard", story.now).map((a) => a.say);
    expect(asked()).toContain("handlePropeller");
    hands(story, 1);
    expect(asked()).toContain("countBlades");
    story.send("supervisor", "hold");
    expect(asked()).toContain("countBlades");
  });

  it("[HND-8] fewer blades than the rule asks for are no count: they are asked for again, and resistance ends it", () => {
    const story = inSecure();
    hands(story, 1);
    const asked = () => askedOf(story.state, "groundPower", story.now).find((a) => a.engine === 1);
    const need = asked()?.choices.find((c) => c.word === "countBlades")?.need;
    const atLeast = need?.is === "blades" ? need.atLeast : 0;
    expect(atLeast).toBeGreaterThan(2);
    count(story, 1, atLeast - 1);
    expect(asked()?.say).toBe("countBlades");
    count(story, 1, atLeast);
    expect(asked()?.say).toBe("propellerFree");
    const stiff = inSecure();
    hands(stiff, 1);
    count(stiff, 1, 1, true);
    expect(askedOf(stiff.state, "groundPower", stiff.now).find((a) => a.engine === 1)?.say).toBe(
      "propellerFree",
    );
  });
});
