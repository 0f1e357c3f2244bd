import { describe, expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import { type Action, actionSchema } from "../../shared/protocol/commands.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import type { SignalKind } from "../../shared/protocol/signals.ts";
import { commandFor, enqueue, takeDue } from "../../shared/replica/outbox.ts";
import { judgedAs } from "../../shared/session/judgedAs.ts";
import type { SaidClass } from "../../shared/signals/definition.ts";
import { RICH } from "../figures/rich.ts";
import { FOUR } from "./aircraft.ts";
import { at, expectOver, expectRefusedLate, expectTaken, isRefusedInTime, LONG } from "./everyCell.ts";
import { CREW, cy, ed, given, type Say, type Story } from "./given.ts";

const volts = (value: number) =>
  ({ type: "send", kind: "powerConnected", volts: { value, unit: "V" } }) as const;
const brakes = (value: number) =>
  ({ type: "send", kind: "brakesSet", pressure: { value, unit: "psi" } }) as const;
const trace = (low: number): Say => ({
  type: "giveVoltTrace",
  samples: [
    [0, 28],
    [20, low],
    [40, low],
  ],
  cranking: [],
  endedAgoMs: 0,
});

// By what they say; the battery's check has a range, engine 3 runs in the states from `starting` on.
const BY_FIGURE: readonly [string, SaidClass, Say][] = [
  ["volts in band", "raises", volts(28)],
  ["volts out of band", "lowers", volts(20)],
  ["brake pressure", "raises", brakes(1000)],
  ["brake pressure low", "lowers", brakes(10)],
  ["a check good", "raises", { type: "recordCheck", check: "bottles", good: true }],
  ["a check not good", "lowers", { type: "recordCheck", check: "bottles", good: false }],
  [
    "a check in range",
    "raises",
    { type: "recordCheck", check: "battery", reading: { value: 25, unit: "V" } },
  ],
  [
    "a check out of range",
    "lowers",
    { type: "recordCheck", check: "battery", reading: { value: 2, unit: "V" } },
  ],
  ["no resistance", "raises", { type: "countBlades", engine: 1, blades: 9, resistance: false }],
  ["resistance", "lowers", { type: "countBlades", engine: 1, blades: 2, resistance: true }],
  ["wind", "raises", { type: "recordWeather", windKt: 5 }],
  ["wind beyond its limit", "lowers", { type: "recordWeather", windKt: 140 }],
  ["a flash", "lowers", { type: "recordFlash" }],
  ["how far a flash was", "raises", { type: "recordFlash", of: 1, miles: 20 }],
  ["a defect", "raises", { type: "writeDefect", words: "seeps", barsStart: false }],
  ["a defect that bars a start", "lowers", { type: "writeDefect", words: "cracked", barsStart: true }],
];

const ALL: readonly (readonly [string, SaidClass, Action])[] = BY_FIGURE.map(([what, is, say]) => [
  what,
  is,
  actionSchema.parse(say),
]);

describe("a figure, by every post and nobody, in every stage, in time or late, with and without leave", () => {
  it.each(ALL)("[SIG-20] %s %s", (_, is, action) => {
    expect(judgedAs(at("starting", false), action)).toBe(is);
  });

  it.each(ALL.filter(([, is]) => is !== "raises"))("[SIG-17, REF-4] %s is taken", (_, _is, action) =>
    expectTaken(action),
  );

  it.each(ALL.filter(([, is]) => is === "raises"))(
    "[SIG-17] %s is refused when late, and in time to some post in some stage",
    (_, _is, action) => {
      expectRefusedLate(action);
      expect(isRefusedInTime(action)).toBe(true);
    },
  );

  it.each(ALL)("[SIG-17] %s is not taken by a session that is over", (_, _is, action) => expectOver(action));

  it("[SIG-17, PWR-11] a meter's record outside its limits is taken from anybody, one inside them is not", () => {
    const story = given({ type: RICH }).upTo("starting");
    expect(story.does(ed, trace(28)).refusal?.reason).toBe("wrongPost");
    expect(story.does(ed, trace(2), story.now - LONG).refusal).toBeUndefined();
    expect(story.state.voltTrace?.by).toMatchObject({ name: "Ed", post: null });
  });
});

describe("reports that lower confidence", () => {
  const starting = () => given().upTo("starting");
  const say = (story: Story, kind: SignalKind, more = {}) => story.does(ed, { type: "send", kind, ...more });
  const voided = (story: Story) => story.told("clearanceVoid").map((f) => f.cause);

  it.each([
    ["chocksOut", {}],
    ["brakesReleased", {}],
    ["brakesSet", { pressure: { value: 10, unit: "psi" } }],
    ["powerDisconnected", {}],
    ["powerConnected", { volts: { value: 20, unit: "V" } }],
    ["arcNotClear", { engine: 3 }],
    ["arcNotClear", { engine: 8 }],
    ["arcNotClear", {}],
    ["peopleAtAircraft", {}],
    ["peopleAtAircraft", { engine: 3 }],
    ["guardAway", {}],
  ] as const)(
    "[SIG-17, SIG-18, SIG-19, CLR-6] %s %j from a person without a post voids the clearance",
    (kind, more) => {
      const story = starting();
      story.readBack(3);
      expect(say(story, kind, more).refusal).toBeUndefined();
      expect([story.life(3), ...voided(story)]).toEqual(["waiting", "condition"]);
      expect(
        story.log.find(
          (e) =>
            e.fact.type === "sent" &&
            e.fact.kind === kind &&
            e.actor.kind === "person" &&
            e.actor.id === "ed",
        ),
      ).toBeDefined();
    },
  );

  it("[SIG-19] people reported at the aircraft end the all clear", () => {
    const story = given().upTo("release");
    story.send("supervisor", "allClear");
    story.heard();
    expect(story.state.allClearAt).not.toBeNull();
    say(story, "peopleAtAircraft");
    expect(story.state.allClearAt).toBeNull();
    expect(Object.values(story.state.arcs).map((a) => a.clear)).toEqual([false, false, false, false]);
  });

  it("[SIG-18, SIG-12] a witnessed crank uses no clearance, also when the cockpit reports it itself afterwards", () => {
    const story = starting();
    const ref = story.readBack(3);
    story.send("cockpit", "cranking", { engine: 3, ref, channel: "hand", seenFrom: "fireGuard" });
    expect(story.turnsUncleared(3)).toBe(true);
  });

  it("[CHK-6] a check found not good by a person without a post is recorded as theirs, not the post's", () => {
    const story = starting();
    story.does(ed, { type: "recordCheck", check: "bottles", good: false });
    expect(story.state.checks.bottles).toMatchObject({ good: false, name: "Ed", post: null });
  });

  it.each([
    [
      "late",
      (s: Story, ref: number) =>
        s.does(CREW.cockpit, { type: "send", kind: "cranking", engine: 3, ref }, s.now - 1),
    ],
    ["from another post", (s: Story, ref: number) => s.send("fireGuard", "cranking", { engine: 3, ref })],
    ["from nobody's post", (s: Story, ref: number) => say(s, "cranking", { engine: 3, ref })],
  ])(
    "[TRN-5] a crank %s uses no clearance: the engine is seen turning, with its alert and hold",
    (_, crank) => {
      const story = starting();
      expect(crank(story, story.readBack(3)).refusal).toBeUndefined();
      expect(story.turnsUncleared(3)).toBe(true);
      expect(story.alerts).toContain("turningUncleared");
      expect(story.state.holds).toHaveLength(1);
    },
  );

  it("[TRN-5, TRN-3] a crank of an engine that does not exist is a hold", () => {
    const story = starting();
    story.send("cockpit", "cranking", { engine: 7 });
    expect(story.state.holds).toHaveLength(1);
  });

  it("[CLR-9, TRN-7] a clearance revoked during the crank alerts all, and the cockpit is asked to stop the engine until it is stable", () => {
    const story = starting();
    story.cranking(3);
    say(story, "revokeClearance", { engine: 3 });
    expect(story.alerts).toEqual(["revokedTurning"]);
    expect(
      askedOf(story.state, "cockpit", story.now)
        .find((a) => a.key === "revoked:3")
        ?.choices.map((c) => c.word),
    ).toEqual(["startAbandoned", "shutDown"]);
    story.wait(5).send("cockpit", "caught", { engine: 3 });
    story.oil(3, 60);
    const active = () => story.state.alerts.some((a) => a.kind === "revokedTurning" && a.active);
    expect(active()).toBe(true);
    story.send("cockpit", "started", { engine: 3 });
    expect(active()).toBe(false);
  });

  it.each(["cranking", "caught", "stable"] as const)(
    "[TRN-6, CON-14] an arc not clear at an engine that is %s alerts all, and the cockpit is asked to stop it",
    (life) => {
      const story = starting();
      if (life === "cranking") story.cranking(3);
      if (life === "caught") story.caught(3);
      if (life === "stable") story.started(3);
      story.does(cy, { type: "send", kind: "arcNotClear", engine: 3 });
      expect(story.raised("arcUnsafe")).toMatchObject([{ engine: 3, to: [...POSTS] }]);
      const asked = askedOf(story.state, "cockpit", story.now)[0];
      expect(asked).toMatchObject({ key: "arcUnsafe:3", weight: 0 });
      expect(asked?.choices.map((c) => c.word)).toEqual(
        life === "cranking" ? ["startAbandoned", "shutDown"] : ["shutDown"],
      );
      // A guard who goes elsewhere makes no arc clear.
      story.send("fireGuard", "guardInPlace", { engine: 4 });
      const active = () => story.state.alerts.some((a) => a.kind === "arcUnsafe" && a.active);
      expect(active()).toBe(true);
      story.send("fireGuard", "guardInPlace", { engine: 3, walkedAround: true });
      story.send("fireGuard", "arcClear", { engine: 3 });
      expect(active()).toBe(false);
    },
  );

  it("[TRN-6, CON-14] an arc reported not clear before the crank stays not clear during it", () => {
    const story = starting();
    story.does(cy, { type: "send", kind: "arcNotClear", engine: 3 });
    story.send("cockpit", "cranking", { engine: 3 });
    expect(story.raised("arcUnsafe")).toHaveLength(1);
    story.send("cockpit", "startAbandoned", { engine: 3 });
    expect(story.state.alerts.some((a) => a.kind === "arcUnsafe" && a.active)).toBe(false);
  });

  it("[PWR-13, CON-8] lost power is unknown and raises an alert until it is on again or the plan says batteries", () => {
    for (const end of ["on", "batteries"] as const) {
      const story = given({ powerSource: "batteries" }).upTo("starting");
      story.power();
      say(story, "powerDisconnected");
      const find = () => story.state.alerts.some((a) => a.kind === "powerLost" && a.active);
      expect(find()).toBe(true);
      expect(
        story.requested(3).guarded(3).send("supervisor", "clearToStart", { engine: 3 }).refusal?.unmet,
      ).toMatchObject([{ id: "groundPowerKnown", is: "unknown", by: { name: "Ed", post: null } }]);
      if (end === "on") story.power();
      else story.say("cockpit", { type: "amendPlan", powerSource: "batteries", reason: "the cart failed" });
      expect(find()).toBe(false);
    }
  });

  it("[PWR-13] power taken off on the crew's leave is not lost, and putting it on still needs leave", () => {
    const story = given().upTo("starting");
    story.powerOff();
    expect(story.state.groundPower).toEqual({ is: "off", by: expect.anything() });
    expect(story.alerts).toEqual([]);
    expect(story.volts(28).refusal?.reason).toBe("noAuthority");
    expect(say(story, "powerConnected", { volts: { value: 20, unit: "V" } }).refusal).toBeUndefined();
    expect(story.alerts).toEqual(["groundPowerOutOfRange"]);
  });

  it("[OIL-7, CON-10] an engine that runs and loses oil pressure is not stable, bars other clearances and raises an alert", () => {
    const story = starting().running(3);
    story.does(ed, { type: "reading", gauge: "oilPressure", engine: 3, reading: { value: 10, unit: "psi" } });
    expect(story.raised("oilLost")).toMatchObject([{ engine: 3, to: ["cockpit", "supervisor"] }]);
    expect(story.send("cockpit", "started", { engine: 3 }).refusal?.reason).toBe("oilLost");
    expect(askedOf(story.state, "cockpit", story.now)[0]).toMatchObject({ key: "oilLost:3", weight: 0 });
    story.oil(3, 60);
    expect(story.state.alerts.some((a) => a.kind === "oilLost" && a.active)).toBe(false);
    expect(story.send("cockpit", "started", { engine: 3 }).refusal).toBeUndefined();
  });

  it("[OIL-7, CON-10] a stable engine that loses oil pressure voids another engine's clearance, and bars one until it is stopped", () => {
    const type = { ...FOUR, conditions: [...new Set([...FOUR.conditions, "othersSettled" as const])] };
    const story = given({ type }).upTo("starting").started(3);
    story.readBack(4);
    story.oil(3, 39);
    expect(voided(story)).toEqual(["condition"]);
    const clear = () => story.cleared(4);
    expect(clear).toThrow("othersSettled");
    story.send("cockpit", "shutDown", { engine: 3 });
    story.send("supervisor", "clearToStart", { engine: 4 });
    expect(story.life(4)).toBe("clear");
  });

  it("[OIL-7] oil pressure is lost in a later stage too, but not at the type's least pressure", () => {
    const story = given({ order: [3] }).upTo("warmUp");
    story.oil(3, 40);
    expect(story.alerts).toEqual([]);
    story.oil(3, 39.9);
    expect(story.alerts).toEqual(["oilLost"]);
  });

  it("[CHK-8] brakes released or low alert all while an engine turns and chocks are not in", () => {
    for (const free of ["brakesReleased", "brakesSet"] as const) {
      const story = given({ order: [3] }).upTo("release");
      story.brakes();
      story.send("cockpit", "removeChocks");
      story.send("groundPower", "chocksOut");
      expect(story.alerts).toEqual([]);
      say(story, free, free === "brakesSet" ? { pressure: { value: 10, unit: "psi" } } : {});
      expect(story.raised("mayRoll")).toMatchObject([{ to: [...POSTS] }]);
      story.brakes();
      expect(story.state.alerts.some((a) => a.kind === "mayRoll" && a.active)).toBe(false);
    }
  });

  it("[CHK-8] brakes released raise no alert with chocks in, with nothing turning, or with the all clear answered", () => {
    const chocked = given({ order: [3] }).upTo("warmUp");
    say(chocked, "brakesReleased");
    const still = starting();
    say(still, "chocksOut");
    say(still, "brakesReleased");
    const leaving = given({ order: [3] }).upTo("release");
    leaving.brakes();
    leaving.send("cockpit", "removeChocks");
    leaving.send("groundPower", "chocksOut");
    leaving.send("supervisor", "allClear");
    leaving.heard();
    say(leaving, "brakesReleased");
    for (const story of [chocked, still, leaving]) expect(story.alerts).toEqual([]);
    say(chocked, "chocksOut");
    expect(chocked.alerts).toEqual(["mayRoll"]);
  });
});

describe("a panel's outbox", () => {
  it("[RPL-4, RPL-5] sends a report that lowers confidence at any age and without the server's clock, in its order", () => {
    const made = (id: string, kind: SignalKind, serverNow: number | null) =>
      commandFor(
        { id, session: "s", clientAt: 0, action: actionSchema.parse({ type: "send", kind, engine: 3 }) },
        serverNow,
      );
    expect(made("a", "arcClear", null)).toBeNull();
    const report = made("b", "arcNotClear", null);
    const clear = made("a", "arcClear", 1000);
    if (!report || !clear) throw new Error("both can be written down");
    expect(report.validUntil).toBeUndefined();
    expect(takeDue(enqueue([], report, 0), 0, null).send.map((c) => c.id)).toEqual(["b"]);
    const both = enqueue(enqueue([], clear, 0), report, 0);
    expect(takeDue(both, 0, 1000).send.map((c) => c.id)).toEqual(["a"]);
    expect(takeDue(both, 0, 9_999_999).send.map((c) => c.id)).toEqual(["b"]);
  });
});
