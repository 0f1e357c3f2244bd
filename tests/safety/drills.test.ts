import { describe, expect, it } from "vitest";
import { demo } from "../../seed/demo-data.ts";
import { askedOf } from "../../shared/asks/asked.ts";
import { findUnmet } from "../../shared/conditions/all.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import type { FirePlace } from "../../shared/protocol/signals.ts";
import type { Drill, Trigger } from "../../shared/types/drill.ts";
import { readAircraftType } from "../../shared/types/validate.ts";
import { given, type Story } from "../spec/given.ts";
import { drill, drilled } from "./types.ts";

const FIRE = drill("fireIn", "fire:induction");
const OIL = drill("oil", "alert:oilFirstLate", "alert:oilNormalLate");
const LOCK = drill("lock", "blades:resistance");
const BY_HAND = drill("byHand", "manual");
const LOST = drill("lost", "alert:guardMissing");
const TYPE = { ...drilled(FIRE, OIL, LOCK, BY_HAND, LOST), overridable: [] };
const PLAIN = { ...TYPE, conditions: TYPE.conditions.filter((c) => c !== "bladesCounted") };
const starting = () => given({ type: PLAIN }).upTo("starting");
const open = (story: Story) => story.state.drills.map((r) => [r.drill, r.engine]);
const step = (story: Story, post: Post, index: number, done = true, run = story.state.drills[0]?.id ?? 0) =>
  story.say(post, { type: "drillStep", run, step: index, done }).refusal?.reason;
const end = (story: Story, post: Post = "supervisor") =>
  story.say(post, { type: "endDrill", run: story.state.drills[0]?.id ?? 9_999, outcome: "worked" }).refusal
    ?.reason;
const fire = (story: Story, place: FirePlace = "induction", engine = 3) =>
  story.send("fireGuard", "fire", { engine, place });

describe("a drill", () => {
  it("[DRL-1, FIR-2] changes nothing but its card", () => {
    const story = starting().running(3);
    const before = story.state.engines;
    story.say("cockpit", { type: "startDrill", drill: "byHand", engine: 3 });
    for (const n of [0, 1]) step(story, "cockpit", n);
    end(story);
    expect(story.state.engines).toEqual(before);
    expect(story.state.holds).toEqual([]);
  });

  it("[DRL-2] is opened once by a fire at its place; two reports of one fire open one card", () => {
    const story = starting();
    fire(story);
    expect(open(story)).toEqual([["fireIn", 3]]);
    story.send("cockpit", "fire", { engine: 3, place: "induction" });
    expect(open(story)).toHaveLength(1);
    fire(story, "induction", 2);
    expect(open(story)).toEqual([
      ["fireIn", 3],
      ["fireIn", 2],
    ]);
    end(story);
    story.wait(60);
    expect(open(story)).toEqual([["fireIn", 2]]);
  });

  it("[DRL-2] is not opened by a fire elsewhere or without a place", () => {
    const story = starting();
    fire(story, "nacelle");
    story.send("fireGuard", "fire", { engine: 3 });
    expect(open(story)).toEqual([]);
  });

  it("[DRL-2, FIR-1] is opened once by forty fires at once, and the next command is answered", () => {
    const story = starting();
    for (let i = 0; i < 40; i += 1) expect(fire(story, "induction", 1 + (i % 4)).refusal).toBeUndefined();
    expect(open(story)).toHaveLength(4);
    for (let i = 0; i < 4; i += 1) end(story);
    expect(fire(story, "nacelle").refusal).toBeUndefined();
    expect(open(story)).toEqual([]);
  });

  it("[DRL-2] is opened once when both oil limits are passed, and anew in the next attempt", () => {
    const story = starting().caught(3).wait(20);
    expect(open(story)).toEqual([["oil", 3]]);
    end(story);
    expect(open(story)).toEqual([]);
    story.send("cockpit", "shutDown", { engine: 3 });
    story.wait(60).caught(3).wait(20);
    expect(open(story)).toEqual([["oil", 3]]);
  });

  it("[DRL-2] is opened twice by a guard who leaves twice, if it was ended between", () => {
    const story = starting().running(3);
    for (const times of [1, 2]) {
      story.send("fireGuard", "guardAway");
      expect(open(story)).toEqual([["lost", 3]]);
      story.send("fireGuard", "guardInPlace", { engine: 3 });
      end(story);
      expect(story.told("drillStarted")).toHaveLength(times);
    }
  });

  it("[DRL-2, HND-4] is opened by resistance at the blade count", () => {
    const story = given({ type: TYPE }).upTo("secure");
    story.send("cockpit", "handlePropeller", { engine: 2 });
    story.say("groundPower", { type: "countBlades", engine: 2, blades: 3, resistance: true });
    expect(open(story)).toEqual([["lock", 2]]);
    end(story);
    story.send("groundPower", "propellerFree", { engine: 2 });
    expect(open(story)).toEqual([]);
    story.send("cockpit", "handlePropeller", { engine: 2 });
    story.say("groundPower", { type: "countBlades", engine: 2, blades: 1, resistance: true });
    expect(open(story)).toEqual([["lock", 2]]);
  });

  it("[DRL-2] may be opened by anybody at a post, but not twice", () => {
    const story = starting();
    const start = (post: Post, id: string, engine?: number) =>
      story.say(post, { type: "startDrill", drill: id, ...(engine === undefined ? {} : { engine }) }).refusal
        ?.reason;
    expect(start("groundPower", "oil", 2)).toBeUndefined();
    expect(start("cockpit", "oil", 2)).toBe("alreadyDone");
    expect(start("cockpit", "oil", 1)).toBeUndefined();
    expect(start("cockpit", "none")).toBe("noSuchDrill");
    expect(start("cockpit", "oil", 7)).toBe("noSuchEngine");
  });

  it("[DRL-3] has steps for each post, each worked once as done or not applying; cockpit or supervisor ends it", () => {
    const story = starting();
    fire(story);
    expect(step(story, "cockpit", 0)).toBeUndefined();
    expect(step(story, "cockpit", 0)).toBe("alreadyDone");
    expect(step(story, "cockpit", 1, false)).toBeUndefined();
    expect(step(story, "cockpit", 2)).toBe("noSuchDrill");
    expect(step(story, "groundPower", 0)).toBe("noSuchDrill");
    expect(story.state.drills[0]?.steps.cockpit.map((s) => s?.done)).toEqual([true, false]);
    expect(story.state.drills[0]?.steps.fireGuard).toEqual([null]);
    expect(end(story, "fireGuard")).toBe("wrongPost");
    expect(end(story, "cockpit")).toBeUndefined();
    expect(end(story)).toBe("nothingOpen");
  });

  it("[DRL-3, ASK-5] asks the supervisor to end it when every held post has worked its steps", () => {
    const story = starting();
    fire(story);
    const asked = () => askedOf(story.state, "supervisor", story.now).some((a) => a.say === "drillEnd");
    for (const n of [0, 1]) step(story, "cockpit", n);
    expect(asked()).toBe(false);
    story.say("fireGuard", { type: "leavePost", post: "fireGuard" });
    expect(asked()).toBe(true);
  });

  it("[DRL-5] asks the cockpit to end it while nobody is supervisor, and never asks both", () => {
    const story = starting();
    story.say("cockpit", { type: "startDrill", drill: "byHand" });
    for (const n of [0, 1]) step(story, "cockpit", n);
    step(story, "fireGuard", 0);
    const ends = () =>
      POSTS.filter((p) => askedOf(story.state, p, story.now).some((a) => a.say === "drillEnd"));
    expect(ends()).toEqual(["supervisor"]);
    story.say("supervisor", { type: "leavePost", post: "supervisor" });
    expect(ends()).toEqual(["cockpit"]);
  });

  it("[DRL-4] asks for its step before everything except an answer to a stop", () => {
    const story = starting();
    fire(story);
    const asks = () => askedOf(story.state, "cockpit", story.now).map((a) => a.say);
    expect(asks().slice(0, 2)).toEqual(["answer.fire", "drill"]);
    story.answer("cockpit", story.openSignal("fire"), "received");
    expect(asks()[0]).toBe("drill");
  });
});

describe("a drill that bars", () => {
  const carded = (bars: Drill["bars"], ...triggers: Trigger[]) => {
    const card = drill("barred", ...(triggers.length === 0 ? (["manual"] as const) : triggers));
    const type = { ...PLAIN, drills: [bars === undefined ? card : { ...card, bars }] };
    return given({ type }).upTo("starting");
  };
  const unmet = (story: Story, engine: number) =>
    findUnmet(story.state, engine, story.now).some((u) => u.id === "noDrillBars");
  const opened = (story: Story, engine?: number) => {
    const at = engine === undefined ? {} : { engine };
    story.say("cockpit", { type: "startDrill", drill: "barred", ...at });
    return [3, 4].map((n) => unmet(story, n));
  };

  it.each([
    ["engine", [true, false]],
    ["all", [true, true]],
    ["nothing", [false, false]],
    [undefined, [false, false]],
  ] as const)("[DRL-9] bars as its card says: %s", (bars, expected) => {
    expect(opened(carded(bars), 3)).toEqual(expected);
  });

  it("[DRL-9] bars every engine when it was opened for no particular engine", () => {
    expect(opened(carded("engine"))).toEqual([true, true]);
  });

  it.each(["alert:oilFirstLate", "alert:oilNormalLate", "blades:resistance"] as const)(
    "[DRL-9] bars because of its trigger %s, if the type says nothing",
    (trigger) => {
      expect(opened(carded(undefined, trigger), 3)).toEqual([true, false]);
      expect(opened(carded("nothing", trigger), 3)).toEqual([false, false]);
    },
  );

  it("[DRL-9, CLR-6] ends a standing clearance, and only a person ends the drill", () => {
    const story = carded("engine");
    story.readBack(3);
    opened(story, 3);
    expect(story.told("clearanceVoid")).toMatchObject([
      { cause: "condition", unmet: [{ id: "noDrillBars" }] },
    ]);
    end(story);
    expect(unmet(story, 3)).toBe(false);
    expect(story.log.at(-1)?.actor).toMatchObject({ kind: "person", name: "Di" });
  });
});

describe.each(demo.types.map((t) => [t.id, t] as const))("the drills of %s", (_id, type) => {
  // The test's own limits and drills; the type's other demands have tests of their own.
  const base = {
    ...PLAIN,
    engines: PLAIN.engines.slice(0, type.engines.length),
    defaultOrder: PLAIN.defaultOrder.filter((n) => n <= type.engines.length),
    starter: type.starter,
    oil: PLAIN.oil,
    drills: type.drills,
  };
  const engine = base.defaultOrder[0] ?? 1;

  it("[DRL-1] are read, each with a source and at least one step", () => {
    expect("type" in readAircraftType(type)).toBe(true);
    for (const d of type.drills) {
      expect(d.source.text.length, d.id).toBeGreaterThan(0);
      expect(POSTS.flatMap((p) => d.cards[p]).length, d.id).toBeGreaterThan(0);
    }
  });

  const trigger = (d: Drill): Story => {
    const [first] = d.triggers;
    if (first?.startsWith("fire:")) {
      const story = given({ type: base }).upTo("starting");
      fire(story, first.slice(5) as FirePlace, engine);
      return story;
    }
    switch (first) {
      case "alert:oilFirstLate":
        return given({ type: base }).upTo("starting").caught(engine).waitMs(5_001);
      case "alert:groundPowerOutOfRange": {
        const story = given({ type: base }).upTo("starting");
        story.volts(20);
        return story;
      }
      case "alert:guardMissing": {
        const story = given({ type: base }).upTo("starting").running(engine);
        story.send("fireGuard", "guardAway");
        return story;
      }
      case "blades:resistance": {
        const story = given({ type: base }).upTo("secure");
        story.send("cockpit", "handlePropeller", { engine });
        story.say("fireGuard", { type: "countBlades", engine, blades: 2, resistance: true });
        return story;
      }
      default: {
        const story = given({ type: base }).upTo("starting");
        story.say("supervisor", { type: "startDrill", drill: d.id, engine });
        return story;
      }
    }
  };

  it.each(type.drills.map((d) => [d.id, d] as const))(
    "[DRL-2, DRL-3] %s opens, is worked and is ended",
    (id, d) => {
      const story = trigger(d);
      const run = story.state.drills.find((r) => r.drill === id);
      if (!run) throw new Error(`${id} did not open`);
      // A step that writes a defect is done only when one is written.
      if (POSTS.some((post) => d.cards[post].some((s) => s.writesDefect === true))) {
        story.say("supervisor", { type: "writeDefect", words: "found", engine, barsStart: true });
      }
      for (const post of POSTS) {
        d.cards[post].forEach((_, n) => {
          expect(step(story, post, n, n % 2 === 0, run.id)).toBeUndefined();
        });
      }
      expect(askedOf(story.state, "supervisor", story.now).some((a) => a.key === `drill:${run.id}:end`)).toBe(
        true,
      );
      expect(
        story.say("supervisor", { type: "endDrill", run: run.id, outcome: "done" }).refusal,
      ).toBeUndefined();
      expect(story.state.drills.some((r) => r.id === run.id)).toBe(false);
      story.wait(1);
      expect(story.state.drills.some((r) => r.drill === id)).toBe(false);
    },
  );

  it("[FIR-3, ALR-9, ALR-11] the fire drill wins over the starter's limit, and what it cost is kept", () => {
    const story = given({ type: base }).upTo("starting");
    story.cranking(engine);
    // The limit of the band in force. No temperature was read, so it is the most restrictive one.
    const life = story.state.engines[engine - 1]?.life;
    if (life?.is !== "cranking") throw new Error("the engine must crank");
    const limit = life.limitAt - life.since;
    story.waitMs(limit - 1_000);
    fire(story, "induction", engine);
    story.waitMs(31_000);
    expect(story.underFire(engine)).toBe("cranking");
    expect(story.told("alertRaised").filter((f) => f.kind === "starterLimit")).toMatchObject([
      { suppressedBy: "fire" },
    ]);
    expect(story.send("cockpit", "shutDown", { engine }).refusal).toBeUndefined();
    expect(story.told("exceeded")).toMatchObject([
      { engine, allowed: limit / 1_000, found: limit / 1_000 + 30 },
    ]);
  });
});
