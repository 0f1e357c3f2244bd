import { describe, expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import { findUnmet } from "../../shared/conditions/all.ts";
import { drill, drilled } from "../safety/types.ts";
import { CREW, type Person } from "./given.ts";
import { Ramp } from "./ramp.ts";

/** Ends a session by two people, as it needs when others depend on what it holds. */
const abandoned = (ramp: Ramp, story = ramp.plan()) => {
  for (const post of ["supervisor", "cockpit"] as const) story.say(post, { type: "abandon", reason: "fog" });
  return ramp.settle(story);
};
const DRILLED = drilled(drill("lostGuard", "manual"));
const stranger: Person = { id: "eli", name: "Eli", device: "eli-phone", mayHold: [] };

describe("what stands at an aircraft", () => {
  it("[STN-1] a hold stands in the next session, by name and age, and only its owner releases it", () => {
    const ramp = new Ramp();
    const first = ramp.plan().manned();
    first.send("fireGuard", "hold", { note: "fuel on the ground" });
    ramp.settle(first);
    abandoned(ramp, first);
    const next = ramp.plan().manned();
    const [hold] = next.state.holds;
    expect(hold).toMatchObject({ note: "fuel on the ground", by: { name: CREW.fireGuard.name } });
    expect(hold?.by.at).toBe(first.state.holds[0]?.by.at);
    expect(next.send("cockpit", "release", { ref: hold?.id ?? 0 }).refusal?.reason).toBe("notYourHold");
    expect(next.send("fireGuard", "release", { ref: hold?.id ?? 0 }).refusal).toBeUndefined();
    ramp.settle(next);
    expect(next.state.holds).toEqual([]);
    expect(ramp.record.items).toEqual([]);
    expect(abandoned(ramp, next).state.holds).toEqual([]);
    expect(ramp.plan().state.holds).toEqual([]);
  });

  it("[STN-1] a cut and a fire stand in the next session, the fire at its engine", () => {
    const ramp = new Ramp();
    const first = ramp.plan().manned();
    first.send("cockpit", "cut", { engine: 2 });
    first.send("fireGuard", "fire", { engine: 3, place: "nacelle" });
    ramp.settle(first);
    abandoned(ramp, first);
    const next = ramp.plan().manned();
    expect(next.state.cuts).toMatchObject([{ engine: 2 }]);
    expect(next.state.fires).toMatchObject([{ engine: 3, place: "nacelle" }]);
    expect(next.state.engines[2]?.life.is).toBe("fire");
    const ref = next.state.fires[0]?.id ?? 0;
    next.send("fireGuard", "fireOut", { ref });
    next.send("supervisor", "fireOut", { ref });
    ramp.settle(next);
    expect(next.state.engines[2]?.life.is).toBe("shutDown");
    expect(ramp.record.items.map((i) => i.item.is)).toEqual(["cut"]);
  });

  it("[STN-2] a stop in one session stands at once in every other open one, and ends there at once", () => {
    const ramp = new Ramp();
    const live = ramp.plan().manned();
    const planned = ramp.plan().manned();
    planned.send("groundPower", "hold");
    ramp.settle(planned);
    expect(live.state.holds).toHaveLength(1);
    expect(live.state.alerts.some((a) => a.kind === "hold" && a.active)).toBe(true);
    // A stop that ends elsewhere also ends in the session that raised it.
    live.send("groundPower", "release", { ref: live.state.holds[0]?.id ?? 0 });
    ramp.settle(live);
    expect(planned.state.holds).toEqual([]);
    expect(live.state.holds).toEqual([]);
  });

  it("[STN-2] a stop from the ramp page, without a session, voids a clearance in the running one", () => {
    const ramp = new Ramp();
    const live = ramp.plan().upTo("starting");
    live.cleared(3);
    ramp.settle(live);
    expect(live.state.engines[2]?.life.is).toBe("clear");
    ramp.act(stranger, { type: "stop", is: "hold" });
    expect(live.state.engines[2]?.life.is).toBe("waiting");
    expect(live.state.holds).toMatchObject([{ by: { name: "Eli", post: null } }]);
  });

  it("[STN-3] a stop after the end of a session goes into the record and stands in the next plan", () => {
    const ramp = new Ramp();
    abandoned(ramp);
    expect(ramp.act(stranger, { type: "stop", is: "fire", engine: 8 }).refusal).toBeUndefined();
    expect(ramp.plan().state.fires).toMatchObject([{ engine: null, place: "notSaid" }]);
  });

  it("[STN-3] a stop is ended by its owner or a supervisor while no session is open, and otherwise by the crew", () => {
    const ramp = new Ramp();
    ramp.act(stranger, { type: "stop", is: "hold" });
    const no = ramp.record.items[0]?.no ?? 0;
    const guard = { ...CREW.fireGuard, mayHold: ["fireGuard"] as const };
    expect(ramp.act(guard, { type: "end", no, reason: "clear" }).refusal?.reason).toBe("notYourHold");
    const open = ramp.plan().manned();
    expect(ramp.act(stranger, { type: "end", no, reason: "clear" }).refusal?.reason).toBe("aircraftBusy");
    abandoned(ramp, open);
    expect(ramp.act(stranger, { type: "end", no, reason: "clear" }).refusal).toBeUndefined();
    expect(ramp.plan().state.holds).toEqual([]);
  });

  it("[STN-4] the starter's uses of earlier sessions count on its ladder", () => {
    const ramp = new Ramp();
    const first = ramp.plan().upTo("starting").failedStart(3, 10);
    ramp.settle(first);
    const uses = first.state.engines[2]?.starter;
    abandoned(ramp, first);
    const next = ramp.plan();
    expect(uses).toHaveLength(1);
    expect(next.state.engines[2]?.starter).toEqual(uses);
    const cool = findUnmet(next.state, 3, next.now).find((u) => u.id === "starterCool");
    expect(cool?.is).toBe("no");
  });

  it("[STN-5] a blade count with resistance and the time an engine last ran are kept", () => {
    const ramp = new Ramp();
    const first = ramp.plan().upTo("secure");
    first.send("cockpit", "handlePropeller", { engine: 1 });
    first.say("groundPower", { type: "countBlades", engine: 1, blades: 6, resistance: true });
    first.send("groundPower", "propellerFree", { engine: 1 });
    ramp.settle(first);
    abandoned(ramp, first);
    expect(ramp.plan().state.engines[0]?.blades).toMatchObject({ blades: 6, resistance: true });
  });

  it("[STN-6] hands left on a propeller bar every clearance and other hands, until they are reported off", () => {
    const ramp = new Ramp();
    const first = ramp.plan().upTo("secure");
    first.send("cockpit", "handlePropeller", { engine: 2 });
    ramp.settle(first);
    // The record knows of the hands even if the session reports nothing more.
    const next = ramp.plan().manned();
    expect(next.state.standing?.hands).toMatchObject([{ engine: 2 }]);
    expect(findUnmet(next.state, 1, next.now).map((u) => u.id)).toContain("handsOffPropellers");
  });

  it("[STN-14] a leave left out bars every clearance until ground power reports its people clear", () => {
    const ramp = new Ramp();
    const first = ramp.plan().upTo("groundPower");
    first.send("cockpit", "connectPower");
    ramp.settle(first);
    abandoned(ramp, first);
    const next = ramp.plan();
    next.upTo("brief");
    expect(next.state.standing?.leaves).toMatchObject([{ service: "connectPower", by: { name: "Ada" } }]);
    const asks = () => askedOf(next.state, "groundPower", next.now).map((a) => a.say);
    expect(asks()).not.toContain("standClear");
    next.upTo("secure");
    expect(asks()).toContain("standClear");
    const unmet = () => findUnmet(next.state, 1, next.now).find((u) => u.id === "noLeaveOut");
    // Work on this session's own leave says nothing of the other one's people.
    next.send("groundPower", "chocksIn");
    expect(unmet()).toMatchObject({ is: "no", found: "connecting" });
    next.send("groundPower", "clearOfAircraft");
    ramp.settle(next);
    expect(unmet()).toBeUndefined();
    expect(asks()).not.toContain("standClear");
    expect(ramp.plan().state.standing?.leaves).toEqual([]);
  });

  it("[STN-7] an engine left turning bars a start and hands on propellers until its propeller is seen still", () => {
    const ramp = new Ramp();
    const first = ramp.plan().upTo("starting").running(3);
    ramp.settle(first);
    abandoned(ramp, first);
    const next = ramp.plan().manned();
    expect(next.state.standing?.turning).toMatchObject([{ engine: 3 }]);
    const unmet = () => findUnmet(next.state, 1, next.now).find((u) => u.id === "propellersStill");
    expect(unmet()).toMatchObject({ is: "no", found: "3" });
    next.upTo("secure");
    expect(next.send("cockpit", "handlePropeller", { engine: 1 }).refusal?.unmet).toMatchObject([
      { id: "propellersStill" },
    ]);
    next.send("fireGuard", "propellerStill", { engine: 3 });
    ramp.settle(next);
    expect(unmet()).toBeUndefined();
    expect(ramp.record.items.filter((i) => i.item.is === "turning")).toEqual([]);
    expect(next.send("fireGuard", "propellerStill", { engine: 3 }).refusal?.reason).toBe("nothingOpen");
  });

  it("[STN-7] an engine that turns again after its propeller was seen still is recorded again", () => {
    const ramp = new Ramp();
    const live = ramp.plan().upTo("starting").running(3);
    ramp.settle(live);
    const other = ramp.plan().manned().upTo("brief");
    other.send("fireGuard", "propellerStill", { engine: 3 });
    ramp.settle(other);
    live.send("cockpit", "shutDown", { engine: 3 });
    ramp.settle(live);
    live.wait(60).running(3);
    ramp.settle(live);
    expect(other.state.standing?.turning).toMatchObject([{ engine: 3 }]);
  });

  it("[STN-8] open drills and defects continue, and closed ones do not come back", () => {
    const ramp = new Ramp();
    const first = ramp.plan({ type: DRILLED }).manned();
    first.say("cockpit", { type: "writeDefect", words: "oil leak", engine: 2, barsStart: true });
    first.say("cockpit", { type: "startDrill", drill: first.state.type.drills[0]?.id ?? "" });
    ramp.settle(first);
    abandoned(ramp, first);
    const next = ramp.plan({ type: DRILLED }).manned();
    expect(next.state.defects).toMatchObject([{ words: "oil leak", engine: 2 }]);
    expect(next.state.drills).toHaveLength(1);
    next.say("supervisor", {
      type: "closeDefect",
      defect: next.state.defects[0]?.id ?? "",
      reason: "seal replaced",
    });
    next.say("supervisor", { type: "endDrill", run: next.state.drills[0]?.id ?? 0, outcome: "over" });
    ramp.settle(next);
    abandoned(ramp, next);
    expect(ramp.plan().state).toMatchObject({ defects: [], drills: [] });
  });

  it("[STN-9] chocks, brakes and power as last reported are shown with their age and meet no condition", () => {
    const ramp = new Ramp();
    const first = ramp.plan().upTo("starting");
    ramp.settle(first);
    abandoned(ramp, first);
    const next = ramp.plan().manned();
    expect(next.state.standing?.lastReported).toMatchObject({
      chocks: { in: true },
      brakes: { set: true },
      groundPower: { is: "on" },
    });
    const unmet = findUnmet(next.state, 1, next.now).map((u) => [u.id, u.is]);
    expect(unmet).toEqual(
      expect.arrayContaining([
        ["chocksIn", "unknown"],
        ["brakesSet", "unknown"],
        ["groundPowerKnown", "unknown"],
      ]),
    );
  });

  it("[STN-10] an item that a session ended does not come back with news of another item", () => {
    const ramp = new Ramp();
    ramp.act(stranger, { type: "stop", is: "hold" });
    const next = ramp.plan().manned();
    const stale = next.standing;
    next.does(stranger, { type: "send", kind: "release", ref: next.state.holds[0]?.id ?? 0 });
    expect(next.state.holds).toEqual([]);
    if (!stale) throw new Error("the session was told of nothing");
    next.hear({ ...stale, record: stale.record + 1 });
    expect(next.state.holds).toEqual([]);
  });
});
