import { describe, expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import { findAll } from "../../shared/conditions/all.ts";
import { leavesOut } from "../../shared/leaves/out.ts";
import type { SignalKind } from "../../shared/protocol/signals.ts";
import { given, type Story } from "../spec/given.ts";

const starting = () => given().upTo("starting");
const out = (story: Story) => leavesOut(story.state).map((l) => l.service);
const bars = (story: Story) => findAll(story.state, 3, story.now).find((r) => r.id === "noLeaveOut");
const unmet = (story: Story) =>
  story.send("supervisor", "clearToStart", { engine: 3 }).refusal?.unmet?.map((u) => u.id) ?? [];
const told = (story: Story) => askedOf(story.state, "groundPower", story.now)[0]?.say;

describe("a leave that is out", () => {
  it.each([
    ["insertChocks", "chocksIn"],
    ["disconnectPower", "powerDisconnected"],
  ] as [SignalKind, SignalKind][])(
    "[LEV-1] %s bars every clearance until it is reported done",
    (leave, done) => {
      const story = starting();
      // Clears the report of chocks, so that there is something to insert.
      const open = leave === "insertChocks" ? { ...story.state, chocks: null } : story.state;
      Object.assign(story, { state: open });
      expect(bars(story)).toMatchObject({ is: "yes" });
      expect(story.send("cockpit", leave).refusal).toBeUndefined();
      expect(out(story)).toEqual([leave]);
      story.requested(3).guarded(3);
      expect(unmet(story)).toContain("noLeaveOut");
      expect(bars(story)).toMatchObject({ is: "no", by: { post: "cockpit" }, owners: ["groundPower"] });
      expect(story.send("groundPower", done).refusal).toBeUndefined();
      expect(out(story)).toEqual([]);
      expect(Object.hasOwn(story.state, "leavesOut")).toBe(false);
      expect(bars(story)).toMatchObject({ is: "yes" });
    },
  );

  it("[LEV-1] is out once the cockpit authorised it, not when it was only asked for or refused", () => {
    const story = given().upTo("groundPower");
    story.say("groundPower", { type: "recordCheck", check: "cart", good: true });
    story.send("groundPower", "connectPower");
    expect(out(story)).toEqual([]);
    story.answer("cockpit", story.openSignal("connectPower"), "unable");
    expect(out(story)).toEqual([]);
    story.send("groundPower", "connectPower");
    story.answer("cockpit", story.openSignal("connectPower"), "authorise");
    expect(out(story)).toEqual(["connectPower"]);
    story.volts(28);
    expect(out(story)).toEqual([]);
  });

  it("[LEV-1] loses its permission by a stop, a change of post or a restart, but the people still count as at the aircraft", () => {
    const story = starting();
    story.send("cockpit", "disconnectPower");
    const hold = story.send("supervisor", "hold").events[0]?.seq ?? 0;
    story.send("supervisor", "release", { ref: hold });
    story.say("groundPower", { type: "leavePost", post: "groundPower" });
    story.say("groundPower", { type: "claimPost", post: "groundPower" });
    story.restart();
    expect(story.state.authorities.disconnectPower?.epoch).not.toBe(story.state.epoch);
    expect(out(story)).toEqual(["disconnectPower"]);
    // Somebody else's word that power is off brings nobody of ground power away.
    story.send("fireGuard", "powerDisconnected");
    expect(out(story)).toEqual(["disconnectPower"]);
    expect(bars(story)).toMatchObject({ is: "no" });
  });

  it("[LEV-1] ends a clearance that stands when it is given", () => {
    const story = starting();
    story.readBack(3);
    story.send("cockpit", "disconnectPower");
    expect(story.told("clearanceVoid")).toMatchObject([
      { cause: "condition", unmet: [{ id: "noLeaveOut" }] },
    ]);
  });

  it("[LEV-2] ends when ground power reports everybody clear, in person or by a witnessed signal", () => {
    const story = starting();
    expect(story.send("groundPower", "clearOfAircraft").refusal?.reason).toBe("nothingOpen");
    story.send("cockpit", "disconnectPower");
    expect(story.send("cockpit", "clearOfAircraft").refusal?.reason).toBe("wrongPost");
    const seen = story.copy();
    story.send("groundPower", "clearOfAircraft");
    expect(out(story)).toEqual([]);
    expect(story.state.authorities.disconnectPower).toBeNull();
    seen.send("supervisor", "clearOfAircraft", { channel: "hand", seenFrom: "groundPower" });
    expect(out(seen)).toEqual([]);
  });

  it("[LEV-3, LEV-4] loses its permission when an engine is cranked in a fire, and its post is told", () => {
    const story = starting();
    story.send("cockpit", "disconnectPower");
    const asked = story.openSignal("disconnectPower");
    story.send("fireGuard", "fire", { engine: 3, place: "induction" });
    for (const s of story.state.signals.filter((s) => s.kind === "fire"))
      story.answer("groundPower", s.id, "received");
    story.send("cockpit", "cranking", { engine: 3 });
    expect(story.state.authorities.disconnectPower).toBeNull();
    expect(story.state.ended.find((s) => s.id === asked)?.is).toBe("revoked");
    expect(out(story)).toEqual(["disconnectPower"]);
    expect(told(story)).toBe("standClear");
    story.send("groundPower", "clearOfAircraft");
    expect(told(story)).not.toBe("standClear");
  });

  it("[LEV-4] loses its permission by a stop, and its post is asked if everybody is clear", () => {
    const story = starting();
    story.send("cockpit", "disconnectPower");
    expect(told(story)).not.toBe("standClear");
    story.send("groundPower", "hold");
    const asked = askedOf(story.state, "groundPower", story.now).find((a) => a.say === "standClear");
    expect(asked?.choices.map((c) => c.word)).toEqual(["clearOfAircraft"]);
  });

  it("[LEV-3] is found in a session that was stored before leaves were kept separately", () => {
    const story = starting();
    story.send("cockpit", "disconnectPower");
    const { leavesOut: _kept, ...stored } = story.state;
    expect(findAll(stored, 3, story.now).find((r) => r.id === "noLeaveOut")?.is).toBe("no");
  });
});
