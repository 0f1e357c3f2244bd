import { describe, expect, it } from "vitest";
import { LIVE_STAGES } from "../../shared/protocol/stages.ts";
import {
  ada,
  bo,
  CREW,
  cy,
  di,
  ed,
  fay,
  given,
  onDevice,
  type Person,
  type Story,
  towards,
} from "./given.ts";

const starting = () => given().upTo("starting");
const STOPS = ["hold", "cut", "cutAll", "fire", "turning"] as const;
const raise = (story: Story, who: Person, kind: (typeof STOPS)[number], more: object = {}) =>
  story.does(who, { type: "send", kind, ...more }).events[0]?.seq ?? 0;
const release = (story: Story, who: Person, ref: number, note?: string) =>
  story.does(who, { type: "send", kind: "release", ref, ...(note ? { note } : {}) }).refusal?.reason;

describe("stops are never blocked", () => {
  it.each(LIVE_STAGES)(
    "[HLD-1, CUT-1, FIR-1, TRN-1] are taken in %s from every post, an observer and a person on a second device",
    (stage) => {
      const story = towards(stage, { order: [3] })
        .manned()
        .upTo(stage);
      const people = [...Object.values(CREW), ed, onDevice(ada, "another")];
      for (const who of people) {
        for (const kind of STOPS) {
          for (const engine of [undefined, 1, 7]) {
            const seenFrom = who === bo ? ("supervisor" as const) : undefined;
            const more = { ...(engine ? { engine } : {}), ...(seenFrom ? { seenFrom } : {}) };
            expect(story.does(who, { type: "send", kind, ...more }, 1).refusal).toBeUndefined();
          }
        }
      }
      const { holds, cuts, fires } = story.state;
      expect(holds.length + cuts.length + fires.length).toBe(people.length * STOPS.length * 3);
    },
  );
});

describe("hold", () => {
  it("[HLD-2] bars every request, clearance and crank; engines that turn continue", () => {
    const story = starting().started(3);
    story.readBack(4);
    raise(story, bo, "hold");
    expect([story.life(3), story.life(4)]).toEqual(["stable", "waiting"]);
    expect(story.send("cockpit", "readyToStart", { engine: 4 }).refusal?.reason).toBe("stopOpen");
    expect(story.send("supervisor", "clearToStart", { engine: 4 }).refusal?.reason).toBe("wrongEngineState");
    story.send("cockpit", "cranking", { engine: 4 });
    expect(story.turnsUncleared(4)).toBe(true);
    expect(story.send("supervisor", "allClear").refusal?.reason).toBe("wrongStage");
  });

  it("[HLD-2] leaves it to the crew to end a crank that has begun", () => {
    const story = starting();
    story.cranking(3);
    raise(story, bo, "hold");
    expect(story.life(3)).toBe("cranking");
    expect(story.send("cockpit", "caught", { engine: 3 }).refusal).toBeUndefined();
  });

  it("[HLD-3] is released by its owner from any device, and by nobody else while the owner holds a post", () => {
    const story = starting();
    const hold = raise(story, bo, "hold");
    for (const who of [ada, cy, di, ed, fay])
      expect(release(story, who, hold, "looks fine")).toBe("notYourHold");
    expect(release(story, onDevice(bo, "other"), hold)).toBeUndefined();
    expect(story.state.holds).toEqual([]);
  });

  it("[HLD-3] is released by the observer who raised it, or by the supervisor with a reason", () => {
    for (const [who, note, reason] of [
      [ed, undefined, undefined],
      [di, undefined, "notYourHold"],
      [di, "he went home", undefined],
      [ada, "he went home", "notYourHold"],
    ] as const) {
      const story = starting();
      expect(release(story, who, raise(story, ed, "hold"), note)).toBe(reason);
    }
  });

  it("[HLD-3] is released by the next holder of a post whose holder left", () => {
    const story = starting();
    const hold = raise(story, bo, "hold");
    story.say("fireGuard", { type: "leavePost", post: "fireGuard" });
    expect(release(story, cy, hold)).toBe("notYourHold");
    story.does(fay, { type: "claimPost", post: "fireGuard" });
    expect(release(story, fay, hold)).toBeUndefined();
  });

  it("[HLD-4, HLD-5] stays when another one is released, also of the same person", () => {
    const story = starting();
    const [first, second, third] = [
      raise(story, bo, "hold"),
      raise(story, bo, "hold"),
      raise(story, cy, "hold"),
    ];
    release(story, bo, first);
    expect(story.state.holds.map((h) => h.id)).toEqual([second, third]);
    expect(story.send("cockpit", "readyToStart", { engine: 3 }).refusal?.reason).toBe("stopOpen");
    expect(release(story, bo, first)).toBe("nothingOpen");
  });

  it("[HLD-4, CLR-14] brings nothing back when it is released", () => {
    const story = starting();
    story.readBack(3);
    release(story, bo, raise(story, bo, "hold"));
    expect(story.life(3)).toBe("waiting");
    expect(story.facts.map((f) => f.type)).toEqual(["sent", "alertEnded"]);
  });
});

describe("cut", () => {
  it.each([undefined, 7])("[CUT-2] means all engines when it names engine %s", (engine) => {
    const story = starting();
    raise(story, ed, "cut", engine ? { engine } : {});
    expect(story.told("sent").at(-1)?.kind).toBe("cutAll");
    expect(story.state.cuts).toMatchObject([{ engine: null }]);
  });

  it("[CUT-3, CUT-5] changes nothing by itself; the answer done shuts down its engines", () => {
    const story = starting().started(3).started(4);
    const cut = raise(story, bo, "cut", { engine: 3 });
    expect([story.life(3), story.life(4)]).toEqual(["stable", "stable"]);
    expect(story.send("supervisor", "resetCut", { ref: cut }).refusal).toMatchObject({
      reason: "wrongEngineState",
      engine: 3,
    });
    story.answer("cockpit", cut, "done");
    expect([story.life(3), story.life(4)]).toEqual(["shutDown", "stable"]);
    expect(story.send("supervisor", "resetCut", { ref: cut }).refusal).toBeUndefined();
    expect(story.state.cuts).toEqual([]);
  });

  it("[CUT-3] shuts down all engines while one cranks and one runs", () => {
    const story = starting().started(3);
    story.cranking(4);
    const cut = raise(story, ed, "cutAll");
    story.answer("cockpit", cut, "done");
    expect([1, 2, 3, 4].map((n) => story.life(n))).toEqual(["waiting", "waiting", "shutDown", "shutDown"]);
    expect(story.state.engines[3]?.starter.at(-1)?.off).toBe(story.now);
  });

  it("[CUT-4, SIG-1] is reported done by the cockpit, also when the cockpit raised it", () => {
    const story = starting().started(3);
    const cut = raise(story, ada, "cutAll");
    for (const post of ["fireGuard", "groundPower", "supervisor"] as const) {
      expect(story.answer(post, cut, "done").refusal?.reason).toBe("answerNotAllowed");
    }
    expect(story.answer("cockpit", cut, "done").refusal).toBeUndefined();
  });

  it("[CUT-5] is ended by supervisor or cockpit, after the cockpit reported it done", () => {
    const story = starting();
    const cut = raise(story, ed, "cutAll");
    expect(story.send("supervisor", "resetCut", { ref: cut }).refusal).toMatchObject({
      found: "notReportedDone",
      posts: ["cockpit"],
    });
    story.answer("cockpit", cut, "done");
    expect(story.send("fireGuard", "resetCut", { ref: cut }).refusal?.reason).toBe("wrongPost");
    expect(story.send("cockpit", "resetCut", { ref: cut }).refusal).toBeUndefined();
  });

  it("[CUT-5] is not ended while one of its engines turns again", () => {
    const story = starting();
    const cut = raise(story, ed, "cutAll");
    story.answer("cockpit", cut, "done");
    raise(story, ed, "turning", { engine: 2 });
    expect(story.send("supervisor", "resetCut", { ref: cut }).refusal).toMatchObject({
      engine: 2,
      found: "cranking",
    });
  });

  it("[CUT-6] bars every start while it stands", () => {
    const story = starting();
    const cut = raise(story, ed, "cut", { engine: 1 });
    story.answer("cockpit", cut, "done");
    story.wait(3600);
    expect(story.send("cockpit", "readyToStart", { engine: 3 }).refusal?.reason).toBe("stopOpen");
  });
});

describe("fire", () => {
  it.each(["waiting", "cranking", "caught", "stable"] as const)(
    "[FIR-2, FIR-3] leaves an engine that is %s in its state",
    (life) => {
      const story = starting();
      if (life === "cranking") story.cranking(3);
      if (life === "caught") story.caught(3);
      if (life === "stable") story.started(3);
      raise(story, bo, "fire", { engine: 3, place: "exhaust" });
      expect([story.life(3), story.underFire(3)]).toEqual(["fire", life]);
      story.wait(60);
      expect(story.underFire(3)).toBe(life);
      expect(story.state.cuts).toEqual([]);
      expect(story.told("sent").map((f) => f.kind)).not.toContain("cut");
    },
  );

  it("[FIR-3, FIR-4] lets the engine crank on, catch, run and be shut down during the fire", () => {
    const story = starting();
    story.cranking(3);
    raise(story, bo, "fire", { engine: 3, place: "induction" });
    expect(story.send("cockpit", "cranking", { engine: 3 }).refusal?.reason).toBe("clearanceUsed");
    const lives = [story.underFire(3)];
    for (const kind of ["startAbandoned", "cranking", "caught"] as const) {
      story.wait(2).send("cockpit", kind, { engine: 3 });
      lives.push(story.underFire(3));
    }
    story.oil(3, 60);
    lives.push(story.underFire(3));
    expect(story.send("cockpit", "cranking", { engine: 3 }).refusal).toMatchObject({
      reason: "clearanceUsed",
      engine: 3,
    });
    story.send("cockpit", "shutDown", { engine: 3 });
    lives.push(story.underFire(3));
    expect(lives).toEqual(["cranking", "cooling", "cranking", "caught", "running", "shutDown"]);
    expect(story.life(3)).toBe("fire");
  });

  it("[FIR-4, TRN-2] allows a crank without a clearance, which raises no alert of an engine turning", () => {
    const story = given({ order: [3] }).upTo("warmUp");
    raise(story, bo, "fire", { engine: 2 });
    expect(story.send("cockpit", "cranking", { engine: 2 }).refusal).toBeUndefined();
    expect(story.raised("turningUncleared")).toEqual([]);
    story.send("cockpit", "cranking", { engine: 1 });
    expect(story.turnsUncleared(1)).toBe(true);
  });

  it("[FIR-5] is out only by two people on two devices", () => {
    const story = starting();
    const fire = raise(story, ed, "fire", { engine: 3 });
    const out = (who: Person) =>
      story.does(who, { type: "send", kind: "fireOut", ref: fire }).refusal?.reason;
    expect(out(cy)).toBe("wrongPost");
    expect(out(ed)).toBe("wrongPost");
    expect(out(bo)).toBeUndefined();
    expect(story.state.fires).toMatchObject([{ outBy: { person: "bo" } }]);
    expect(out(bo)).toBe("secondPersonNeeded");
    // The same person again, at another post on another device.
    story.say("fireGuard", { type: "leavePost", post: "fireGuard" });
    const again = { ...onDevice(bo, "second"), mayHold: CREW.supervisor.mayHold };
    story.say("supervisor", { type: "leavePost", post: "supervisor" });
    story.does(again, { type: "claimPost", post: "supervisor" });
    expect(out(again)).toBe("secondPersonNeeded");
    // Another person on the first one's device.
    const shared = onDevice(fay, bo.device);
    story.does(shared, { type: "claimPost", post: "fireGuard" });
    expect(out(shared)).toBe("secondPersonNeeded");
    expect(out(ada)).toBeUndefined();
    expect(story.state.fires).toEqual([]);
  });

  it.each([
    ["waiting", "shutDown"],
    ["cranking", "cranking"],
    ["stable", "stable"],
  ])("[FIR-6] leaves an engine that was %s in the state %s", (before, after) => {
    const story = starting();
    if (before === "cranking") story.cranking(3);
    if (before === "stable") story.started(3);
    const fire = raise(story, bo, "fire", { engine: 3 });
    for (const post of ["fireGuard", "supervisor"] as const) story.send(post, "fireOut", { ref: fire });
    expect(story.life(3)).toBe(after);
  });

  it("[FIR-7] counts two fires at one engine separately", () => {
    const story = starting();
    const [first, second] = [
      raise(story, bo, "fire", { engine: 3 }),
      raise(story, cy, "fire", { engine: 3 }),
    ];
    for (const post of ["fireGuard", "supervisor"] as const) story.send(post, "fireOut", { ref: second });
    expect(story.life(3)).toBe("fire");
    expect(story.state.engines[2]?.life).toMatchObject({ fire: first });
    for (const post of ["fireGuard", "supervisor"] as const) story.send(post, "fireOut", { ref: first });
    expect(story.life(3)).toBe("shutDown");
  });

  it("[FIR-1] needs no engine when ground equipment burns", () => {
    const story = starting();
    const fire = raise(story, cy, "fire", { place: "groundEquipment", engine: 8 });
    expect(story.state.fires).toMatchObject([{ id: fire, engine: null, place: "groundEquipment" }]);
    for (const post of ["fireGuard", "supervisor"] as const) story.send(post, "fireOut", { ref: fire });
    expect(story.state.fires).toEqual([]);
  });
});

describe("engine seen turning", () => {
  it("[TRN-1, TRN-2, STR-4] is a hold, counts as cranking, and alerts every post until it no longer cranks", () => {
    const story = starting();
    raise(story, ed, "turning", { engine: 2 });
    expect(story.life(2)).toBe("cranking");
    expect(story.state.holds).toHaveLength(1);
    expect(story.raised("turningUncleared")).toMatchObject([
      { engine: 2, to: ["cockpit", "fireGuard", "groundPower", "supervisor"] },
    ]);
    const alert = story.state.alerts.find((a) => a.kind === "turningUncleared")?.id;
    story.send("cockpit", "shutDown", { engine: 2 });
    expect(story.told("alertEnded").map((f) => f.alert)).toContain(alert);
  });

  it("[TRN-2] is only the hold when the engine is recorded as turning", () => {
    const story = starting().started(3);
    raise(story, ed, "turning", { engine: 3 });
    expect([story.life(3), story.state.holds.length, ...story.alerts]).toEqual(["stable", 1]);
  });

  it.each([undefined, 6])("[TRN-3] is a hold when it names engine %s", (engine) => {
    const story = starting();
    raise(story, ed, "turning", engine ? { engine } : {});
    expect(story.told("sent").at(-1)?.kind).toBe("hold");
    expect(story.alerts).toEqual([]);
  });

  it("[TRN-4] ends the engine's request or clearance, and leaves no signal of it open", () => {
    for (const reach of [
      (s: Story) => s.requested(3),
      (s: Story) => s.cleared(3),
      (s: Story) => s.readBack(3),
    ]) {
      const story = starting();
      reach(story);
      raise(story, ed, "turning", { engine: 3 });
      expect(story.life(3)).toBe("cranking");
      expect(story.state.engines[2]?.life).toMatchObject({ cleared: false });
      expect(story.state.signals.map((s) => s.kind)).toEqual(["turning"]);
    }
  });
});
