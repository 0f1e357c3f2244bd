import { describe, expect, it } from "vitest";
import { findAll } from "../../shared/conditions/all.ts";
import { plan } from "../../shared/session/step.ts";
import { ada, bo, cy, di, ed, fay, given, onDevice, START } from "../spec/given.ts";
import { applying, WATCHED } from "./types.ts";

const starting = () => given().upTo("starting");

describe("messages that cross, come twice or come out of order", () => {
  it("[RBK-4, SIG-8] a read-back that crosses a revoke is refused and revives nothing", () => {
    const story = starting();
    const clearance = story.cleared(3);
    story.send("fireGuard", "revokeClearance", { engine: 3 });
    expect(story.answer("cockpit", clearance, "readBack", 3).refusal).toMatchObject({
      reason: "signalClosed",
      found: "revoked",
    });
    expect(story.life(3)).toBe("waiting");
    story.send("cockpit", "cranking", { engine: 3, ref: clearance });
    expect(story.turnsUncleared(3)).toBe(true);
  });

  it("[CLR-7, CLR-14, TRN-5] a crank that crosses a hold uses no clearance, and none after the hold's release", () => {
    const story = starting();
    const clearance = story.readBack(3);
    const hold = story.does(ed, { type: "send", kind: "hold" }).events[0]?.seq ?? 0;
    for (const told of [story.copy(), story]) {
      if (told === story) story.does(ed, { type: "send", kind: "release", ref: hold });
      told.send("cockpit", "cranking", { engine: 3, ref: clearance });
      expect(told.turnsUncleared(3)).toBe(true);
    }
  });

  it("[CLR-5, CLR-11, TRN-5] a late crank on the older of two clearances uses neither", () => {
    const story = starting();
    const first = story.readBack(3);
    story.send("supervisor", "revokeClearance", { engine: 3 });
    const second = story.readBack(3);
    const old = story.copy();
    old.send("cockpit", "cranking", { engine: 3, ref: first });
    expect(old.turnsUncleared(3)).toBe(true);
    expect(story.send("cockpit", "cranking", { engine: 3, ref: second }).refusal).toBeUndefined();
    expect(story.send("cockpit", "cranking", { engine: 3, ref: second }).refusal?.reason).toBe(
      "clearanceUsed",
    );
  });

  it("[REF-4] messages out of order and past their time change nothing", () => {
    const story = starting().requested(3).guarded(3);
    const late = story.now - 1;
    const { state } = story;
    for (const action of [
      { type: "send", kind: "clearToStart", engine: 3 },
      { type: "send", kind: "arcClear", engine: 3 },
      { type: "advance", to: "warmUp" },
    ] as const) {
      expect(
        story.does(action.type === "send" && action.kind === "arcClear" ? bo : di, action, late).refusal
          ?.reason,
      ).toBe("tooLate");
    }
    expect(story.state.engines).toEqual(state.engines);
    expect(story.state.arcs).toEqual(state.arcs);
    expect(story.does(cy, { type: "send", kind: "hold" }, late).refusal).toBeUndefined();
  });

  it("[PWR-3, CUT-4] a report of done that crosses a stop is refused; a cut reported done twice counts once", () => {
    const story = given().upTo("groundPower");
    story.send("cockpit", "connectPower");
    story.send("fireGuard", "hold");
    expect(story.volts(28).refusal?.reason).toBe("noAuthority");
    const cut = story.send("supervisor", "cutAll").events[0]?.seq ?? 0;
    expect(story.answer("cockpit", cut, "done").refusal).toBeUndefined();
    expect(story.answer("cockpit", cut, "done").refusal).toBeDefined();
    expect(story.state.cuts.map((c) => c.doneAt)).toEqual([story.now]);
  });
});

describe("people out of place", () => {
  it("[PST-2, PST-11] of two supervisors at once, the second and the first one's old device are observers", () => {
    const story = starting().requested(3).guarded(3);
    expect(story.does(fay, { type: "claimPost", post: "supervisor" }).refusal?.reason).toBe("postHeld");
    expect(story.does(fay, { type: "send", kind: "clearToStart", engine: 3 }).refusal?.reason).toBe(
      "wrongPost",
    );
    story.does(onDevice(di, "phone"), { type: "claimPost", post: "supervisor" });
    expect(story.does(di, { type: "send", kind: "clearToStart", engine: 3 }).refusal?.reason).toBe(
      "wrongPost",
    );
    expect(story.does(di, { type: "send", kind: "hold" }).refusal).toBeUndefined();
  });

  it("[HLD-3] nobody else releases the hold of a person who holds a post: neither the supervisor with a reason nor an observer", () => {
    const story = starting();
    const hold = story.send("fireGuard", "hold").events[0]?.seq ?? 0;
    for (const who of [ada, cy, di, ed, fay]) {
      expect(
        story.does(who, { type: "send", kind: "release", ref: hold, note: "all is well" }).refusal?.reason,
      ).toBe("notYourHold");
    }
    expect(story.state.holds).toHaveLength(1);
    expect(
      story.does(onDevice(bo, "phone"), { type: "send", kind: "release", ref: hold }).refusal,
    ).toBeUndefined();
  });

  it("[CON-5] a guard who reports arcs at two engines counts for the last one only", () => {
    const story = starting().guarded(3);
    expect(story.send("fireGuard", "arcClear", { engine: 4 }).refusal?.reason).toBe("notAtEngine");
    story.send("fireGuard", "guardInPlace", { engine: 4 });
    expect(story.state.arcs).toEqual({});
    expect(story.send("fireGuard", "arcClear", { engine: 3 }).refusal?.reason).toBe("notAtEngine");
  });

  it("[CLR-7, PRS-1] a restart during a silence leaves no clearance", () => {
    const story = given({ type: WATCHED }).upTo("starting");
    const clearance = story.readBack(3);
    story.unseen(120_000).restart();
    expect(story.life(3)).not.toBe("clear");
    story.send("cockpit", "cranking", { engine: 3, ref: clearance });
    expect(story.turnsUncleared(3)).toBe(true);
    expect(story.replayed()).toEqual(story.state);
  });
});

describe("a plan", () => {
  it("[DEF-2, MCN-1] brings the aircraft's open defects and when each engine last ran", () => {
    const nobody = { cockpit: null, fireGuard: null, groundPower: null, supervisor: null };
    const { state } = plan(
      "later",
      {
        type: "planned",
        aircraft: "CH-TST",
        place: "North ramp",
        aircraftType: applying("noBarringDefect", "bladesCounted"),
        order: [3, 2],
        powerSource: "batteries",
        crew: nobody,
        defects: [{ id: "earlier-7", words: "leak", engine: 2, barsStart: true, at: START - 1, name: "Cy" }],
        lastRan: [null, null, START - 60_000, null],
      },
      di,
      { id: "c", digest: "d", clientAt: START },
      START,
    );
    const is = (engine: number, id: string) => findAll(state, engine, START).find((r) => r.id === id)?.is;
    expect([2, 3].map((n) => is(n, "noBarringDefect"))).toEqual(["no", "yes"]);
    expect([2, 3].map((n) => is(n, "bladesCounted"))).toEqual(["unknown", "yes"]);
    expect(state.defects).toMatchObject([{ id: "earlier-7", by: { at: START - 1, name: "Cy" } }]);
  });
});
