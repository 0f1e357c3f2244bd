import { describe, expect, it } from "vitest";
import { findAll } from "../../shared/conditions/all.ts";
import type { SignalKind } from "../../shared/protocol/signals.ts";
import { ada, bo, ed, fay, given, type Story } from "./given.ts";

const starting = () => given().upTo("starting");
const voids = (story: Story) => story.told("clearanceVoid").map((f) => f.cause);

describe("request", () => {
  it("[REQ-1] asks for one engine, and waits for the supervisor", () => {
    const story = starting();
    story.send("cockpit", "readyToStart", { engine: 3 });
    expect(story.life(3)).toBe("requested");
    expect(story.state.signals).toMatchObject([{ kind: "readyToStart", due: ["supervisor"], is: "open" }]);
  });

  it.each(["hold", "cutAll", "fire"] as const)("[REQ-1] not while a %s stands", (kind) => {
    const story = starting();
    story.does(ed, { type: "send", kind });
    expect(story.send("cockpit", "readyToStart", { engine: 3 }).refusal?.reason).toBe("stopOpen");
  });

  it("[REQ-2] is accepted for an engine that waits, is shut down or cools, and for no other", () => {
    const story = starting().failedStart(3, 5);
    expect(story.life(3)).toBe("cooling");
    story.requested(3);
    const ask = () => story.send("cockpit", "readyToStart", { engine: 3, note: "again" }).refusal;
    expect(ask()).toMatchObject({ reason: "wrongEngineState", found: "requested" });
    story.send("cockpit", "startAbandoned", { engine: 3 });
    story.wait(60).caught(3);
    expect(ask()).toMatchObject({ reason: "wrongEngineState", found: "caught" });
    story.send("cockpit", "shutDown", { engine: 3 });
    expect(ask()).toBeUndefined();
  });

  it("[REQ-3] needs a reason if it is out of order", () => {
    const story = starting();
    expect(story.send("cockpit", "readyToStart", { engine: 2 }).refusal).toEqual({
      reason: "badOrder",
      engine: 2,
      found: "3",
    });
    expect(story.send("cockpit", "readyToStart", { engine: 2, note: "3 leaks" }).refusal).toBeUndefined();
  });

  it("[REQ-4] replaces an older request, and is refused while a clearance stands", () => {
    const story = starting().requested(3).requested(4);
    expect([story.life(3), story.life(4)]).toEqual(["waiting", "requested"]);
    expect(story.state.signals.map((s) => s.engine)).toEqual([4]);
    const second = starting();
    second.cleared(3);
    expect(second.send("cockpit", "readyToStart", { engine: 4, note: "x" }).refusal).toMatchObject({
      found: "clear",
    });
  });

  it.each(["hold", "cut", "cutAll", "fire", "turning"] as const)("[REQ-5] %s takes it back", (kind) => {
    const story = starting().requested(3);
    story.send("fireGuard", kind, { engine: 1 });
    expect(story.life(3)).toBe("waiting");
    expect(story.state.signals.some((s) => s.kind === "readyToStart")).toBe(false);
  });

  it("[REQ-5, FIR-3] is withdrawn by a fire at that engine, and the fire stays", () => {
    const story = starting().requested(3);
    story.send("fireGuard", "fire", { engine: 3 });
    expect([story.life(3), story.underFire(3)]).toEqual(["fire", "waiting"]);
    expect(story.state.signals.some((s) => s.kind === "readyToStart")).toBe(false);
  });

  it("[REQ-5] is withdrawn when the starting stage is left", () => {
    const story = given({ order: [3] })
      .upTo("starting")
      .started(3);
    story.requested(2);
    story.say("supervisor", { type: "advance", to: "warmUp" });
    expect(story.life(2)).toBe("waiting");
  });

  it("[REQ-6] ends when the supervisor answers unable", () => {
    const story = starting().requested(3);
    story.answer("supervisor", story.openSignal("readyToStart"), "unable");
    expect(story.life(3)).toBe("waiting");
    expect(story.state.signals).toEqual([]);
  });
});

describe("clearance", () => {
  it("[CLR-1] depends on every condition, and records their findings", () => {
    const story = starting();
    story.cleared(3);
    expect(story.life(3)).toBe("clear");
    const [cleared] = story.told("sent").filter((f) => f.kind === "clearToStart");
    expect(cleared?.basis?.map((b) => `${b.id} ${b.is}`)).toEqual(
      findAll(story.state, 3, story.now).map(({ id }) => `${id} yes`),
    );
  });

  it("[CLR-1] is given only for an engine that was requested", () => {
    const story = starting().guarded(3);
    expect(story.send("supervisor", "clearToStart", { engine: 3 }).refusal).toMatchObject({
      reason: "wrongEngineState",
      found: "waiting",
    });
  });

  it("[CLR-2] is refused with every unmet condition, its posts and its age", () => {
    const story = starting().requested(3);
    story.send("fireGuard", "guardInPlace", { engine: 3 });
    story.wait(91);
    const { refusal } = story.send("supervisor", "clearToStart", { engine: 3 });
    expect(refusal?.unmet).toMatchObject([
      {
        id: "guardInPlace",
        is: "stale",
        owners: ["fireGuard"],
        age: 91_000,
        by: { post: "fireGuard", name: "Bo" },
      },
      { id: "arcClear", is: "unknown", owners: ["fireGuard"], age: null, by: null },
    ]);
  });

  it("[CLR-3, TRN-5] is for one engine, and only one stands at a time", () => {
    const story = starting();
    const clearance = story.readBack(3);
    story.send("cockpit", "cranking", { engine: 4, ref: clearance });
    expect(story.turnsUncleared(4)).toBe(true);
    expect(story.state.engines.filter((e) => e.life.is === "clear")).toEqual([]);
  });

  it("[CLR-4, CLR-13] expires at its time, to the millisecond", () => {
    for (const [ms, late] of [
      [29_999, false],
      [30_000, true],
    ] as const) {
      const story = starting();
      story.readBack(3);
      story.unseen(ms);
      story.send("cockpit", "cranking", { engine: 3 });
      expect(story.turnsUncleared(3)).toBe(late);
    }
    const watched = starting();
    watched.readBack(3);
    expect(watched.waitMs(29_999).life(3)).toBe("clear");
    expect(watched.waitMs(1).life(3)).toBe("waiting");
    expect(voids(watched)).toEqual(["expired"]);
  });

  it("[CLR-5, CLR-12] is used once", () => {
    const story = starting();
    const clearance = story.cranking(3);
    story.send("cockpit", "startAbandoned", { engine: 3 });
    story.send("cockpit", "cranking", { engine: 3, ref: clearance });
    expect(story.turnsUncleared(3)).toBe(true);
  });

  it("[CLR-12, TRN-5] makes a crank after its end an engine seen turning", () => {
    const story = starting();
    const clearance = story.readBack(3);
    story.wait(31);
    story.send("cockpit", "cranking", { engine: 3, ref: clearance });
    expect(story.turnsUncleared(3)).toBe(true);
  });

  const deaths: [string, (s: Story) => unknown][] = [
    ["the guard goes away", (s) => s.send("fireGuard", "guardAway")],
    ["the guard goes to another engine", (s) => s.send("fireGuard", "guardInPlace", { engine: 2 })],
    ["the arc is not clear, says the guard", (s) => s.send("fireGuard", "arcNotClear", { engine: 3 })],
    ["the arc is not clear, says ground power", (s) => s.send("groundPower", "arcNotClear", { engine: 3 })],
    ["the brakes are released", (s) => s.send("cockpit", "brakesReleased")],
    ["the brakes' pressure has sunk", (s) => s.brakes(599)],
    ["the volts are out of range", (s) => s.volts(25.9)],
  ];
  it.each(deaths)("[CLR-6] ends at once when %s", (_, happens) => {
    const story = starting();
    story.readBack(3);
    happens(story);
    expect(story.life(3)).toBe("waiting");
    expect(voids(story)).toEqual(["condition"]);
    story.send("cockpit", "cranking", { engine: 3 });
    expect(story.turnsUncleared(3)).toBe(true);
  });

  it("[CLR-6] ends when a condition goes stale, without any action", () => {
    const story = starting().requested(3).guarded(3).wait(30);
    story.send("supervisor", "clearToStart", { engine: 3 });
    expect(story.waitMs(14_999).life(3)).toBe("clear");
    story.waitMs(1);
    expect(story.told("clearanceVoid")).toMatchObject([
      { cause: "condition", unmet: [{ id: "arcClear", is: "stale" }] },
    ]);
  });

  it("[CLR-6] bars the crank after a condition went stale, also before the server noticed", () => {
    const story = starting().requested(3).guarded(3).wait(30);
    const clearance = story.send("supervisor", "clearToStart", { engine: 3 }).events[0]?.seq ?? 0;
    story.answer("cockpit", clearance, "readBack", 3);
    story.unseen(15_000);
    const { events } = story.send("cockpit", "cranking", { engine: 3 });
    expect(story.turnsUncleared(3)).toBe(true);
    expect(events[0]?.fact).toMatchObject({
      type: "clearanceVoid",
      cause: "condition",
      unmet: [{ id: "arcClear" }],
    });
  });

  const STOPS: SignalKind[] = ["hold", "cut", "cutAll", "fire", "turning"];
  it.each(STOPS)(
    "[CLR-7, CLR-14] ends with %s, whoever raised it, and does not come back with the stop's end",
    (kind) => {
      const story = starting();
      const clearance = story.readBack(3);
      story.does(ed, { type: "send", kind, engine: 1 });
      expect(voids(story)).toEqual(["epoch"]);
      endStops(story);
      expect(story.life(3)).toBe("waiting");
      story.send("cockpit", "cranking", { engine: 3, ref: clearance });
      expect(story.turnsUncleared(3)).toBe(true);
    },
  );

  it.each(["restart", "clock step forward", "clock step back", "amended plan"])(
    "[CLR-7, CLR-14, TIM-3] ends with a %s",
    (what) => {
      const story = starting();
      story.readBack(3);
      if (what === "restart") story.restart();
      if (what === "clock step forward") story.clockStep(1);
      if (what === "clock step back") story.clockStep(-1);
      if (what === "amended plan")
        story.say("supervisor", { type: "amendPlan", order: [3, 4, 1, 2], reason: "wind" });
      expect(voids(story)).toEqual(["epoch"]);
      story.send("cockpit", "cranking", { engine: 3 });
      expect(story.turnsUncleared(3)).toBe(true);
    },
  );

  it("[CLR-8] ends when the starting stage is left", () => {
    const story = given({ order: [3] })
      .upTo("starting")
      .started(3);
    story.readBack(2);
    story.say("supervisor", { type: "advance", to: "warmUp" });
    expect(voids(story)).toEqual(["stageLeft"]);
  });

  it("[CLR-8] ends before its session does, when that is abandoned", () => {
    const story = starting();
    story.readBack(3);
    story.say("cockpit", { type: "abandon", reason: "storm" });
    expect(voids(story)).toEqual(["stageLeft"]);
    expect(story.life(3)).toBe("waiting");
    expect(story.log.at(-1)?.fact).toMatchObject({ type: "stageReached", stage: "abandoned" });
  });

  it.each(["supervisor", "fireGuard", "cockpit"] as const)("[CLR-9] %s revokes it", (post) => {
    const story = starting();
    story.cleared(3);
    story.send(post, "revokeClearance", { engine: 3 });
    expect([story.life(3), ...voids(story)]).toEqual(["waiting", "revoked"]);
    expect(story.send(post, "revokeClearance", { engine: 3 }).refusal).toBeUndefined();
    expect(story.life(3)).toBe("waiting");
  });

  it("[CLR-10] ends when the cockpit answers unable", () => {
    const story = starting();
    story.answer("cockpit", story.cleared(3), "unable");
    expect([story.life(3), ...voids(story)]).toEqual(["waiting", "revoked"]);
  });

  it("[CLR-11] has a higher fence than the one before, which can act no more", () => {
    const story = starting();
    const older = story.readBack(3);
    story.send("supervisor", "revokeClearance", { engine: 3 });
    const newer = story.readBack(3);
    expect(story.state.engines[2]?.fence).toBe(2);
    const old = story.copy();
    old.send("cockpit", "cranking", { engine: 3, ref: older });
    expect(old.turnsUncleared(3)).toBe(true);
    expect(story.send("cockpit", "cranking", { engine: 3, ref: newer }).refusal).toBeUndefined();
    expect(story.turnsUncleared(3)).toBe(false);
  });

  it("[CLR-14] does not continue by itself after a hold in the middle of a start", () => {
    const story = starting();
    const clearance = story.cleared(3);
    const hold = story.send("groundPower", "hold").events[0]?.seq ?? 0;
    expect(story.answer("cockpit", clearance, "readBack", 3).refusal?.reason).toBe("signalClosed");
    story.send("groundPower", "release", { ref: hold });
    expect(story.answer("cockpit", clearance, "readBack", 3).refusal?.reason).toBe("signalClosed");
    expect(story.life(3)).toBe("waiting");
    expect(story.cleared(3)).toBeGreaterThan(clearance);
  });
});

/** Ends every open stop as its rules require. */
function endStops(story: Story) {
  for (const n of [1])
    if (["cranking", "fire"].includes(story.life(n))) story.send("cockpit", "shutDown", { engine: n });
  for (const hold of story.state.holds) story.does(ed, { type: "send", kind: "release", ref: hold.id });
  for (const cut of story.state.cuts) {
    story.answer("cockpit", cut.id, "done");
    story.send("supervisor", "resetCut", { ref: cut.id });
  }
  for (const fire of story.state.fires) {
    story.send("fireGuard", "fireOut", { ref: fire.id });
    story.send("supervisor", "fireOut", { ref: fire.id });
  }
  expect([story.state.holds, story.state.cuts, story.state.fires]).toEqual([[], [], []]);
}

describe("read-back", () => {
  it("[RBK-1] comes before cranking", () => {
    const story = starting();
    const clearance = story.cleared(3);
    const unread = story.copy();
    unread.send("cockpit", "cranking", { engine: 3 });
    expect(unread.turnsUncleared(3)).toBe(true);
    story.answer("cockpit", clearance, "readBack", 3);
    expect(story.send("cockpit", "cranking", { engine: 3 }).refusal).toBeUndefined();
    expect(story.turnsUncleared(3)).toBe(false);
  });

  it.each([1, 2, 4, 8])("[RBK-2] ends the clearance if it names engine %i instead of 3", (n) => {
    const story = starting();
    const clearance = story.cleared(3);
    expect(story.answer("cockpit", clearance, "readBack", n).refusal).toMatchObject({
      reason: "readBackWrong",
      found: String(n),
    });
    expect(story.told("answered").at(-1)).toMatchObject({ right: false, engine: n });
    expect([story.life(3), ...voids(story)]).toEqual(["waiting", "readBackWrong"]);
    expect(story.answer("cockpit", clearance, "readBack", 3).refusal?.reason).toBe("signalClosed");
  });

  it("[RBK-3] changes nothing without a number", () => {
    const story = starting();
    const clearance = story.cleared(3);
    expect(story.answer("cockpit", clearance, "readBack").refusal?.reason).toBe("engineNeeded");
    expect(story.life(3)).toBe("clear");
  });

  it("[RBK-4] is refused at the clearance's end time", () => {
    const story = starting();
    const clearance = story.cleared(3);
    story.unseen(30_000);
    expect(story.answer("cockpit", clearance, "readBack", 3).refusal?.reason).toBe("clearanceExpired");
  });

  it("[RBK-4] is refused when it crosses the clearance's revocation", () => {
    const story = starting();
    const clearance = story.cleared(3);
    story.send("supervisor", "revokeClearance", { engine: 3 });
    expect(story.answer("cockpit", clearance, "readBack", 3).refusal?.reason).toBe("signalClosed");
  });

  it.each([bo, fay, ed])("[RBK-1, SIG-2] is refused to $id", (who) => {
    const story = starting();
    const signal = story.cleared(3);
    const answer = { type: "answer", signal, answer: "readBack", engine: 3 } as const;
    expect(story.does(who, answer).refusal?.reason).toMatch(/notAddressed|wrongPost/);
    expect(story.does(ada, answer).refusal).toBeUndefined();
  });
});
