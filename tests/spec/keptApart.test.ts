import { describe, expect, it } from "vitest";
import { findAll } from "../../shared/conditions/all.ts";
import { extinguisherChecked } from "../../shared/conditions/guard.ts";
import { postsCurrent } from "../../shared/conditions/posts.ts";
import { areaChecked } from "../../shared/conditions/surroundings.ts";
import { unmetForService } from "../../shared/leaves/conditions.ts";
import { plan } from "../../shared/session/step.ts";
import { applying } from "../safety/types.ts";
import { FOUR } from "./aircraft.ts";
import { ada, di, ed, given, type Story } from "./given.ts";

const starting = () => given().upTo("starting");
const seq = (story: Story) => story.last.events[0]?.seq ?? 0;

describe("one of two is not the other", () => {
  it("[SIG-5, CUT-4] a cut is answered when the cockpit did it and the others received it", () => {
    const story = starting().started(3);
    story.send("fireGuard", "cut", { engine: 3 });
    const cut = seq(story);
    story.answer("groundPower", cut, "received");
    story.answer("supervisor", cut, "received");
    story.answer("cockpit", cut, "received");
    expect(story.state.signals.some((s) => s.id === cut)).toBe(true);
    story.answer("cockpit", cut, "done");
    expect(story.state.signals.some((s) => s.id === cut)).toBe(false);
    expect(story.state.ended.find((s) => s.id === cut)?.is).toBe("answered");
  });

  it("[CUT-3] of two cuts only the one reported done is done", () => {
    const story = starting().started(3);
    story.send("fireGuard", "cut", { engine: 3 });
    const first = seq(story);
    story.send("fireGuard", "cut", { engine: 4 });
    const second = seq(story);
    story.answer("cockpit", second, "done");
    expect(story.state.cuts.map((c) => [c.id, c.doneAt !== null])).toEqual([
      [first, false],
      [second, true],
    ]);
    expect(story.send("supervisor", "resetCut", { ref: second }).refusal).toBeUndefined();
    expect(story.state.cuts.map((c) => c.id)).toEqual([first]);
    expect(story.send("supervisor", "resetCut", { ref: 1 }).refusal?.reason).toBe("nothingOpen");
  });

  it("[FIR-5, FIR-7] of two fires only the one reported out has its first report", () => {
    const story = starting();
    story.send("cockpit", "fire", { engine: 3 });
    const first = seq(story);
    story.send("cockpit", "fire", { engine: 4 });
    story.send("fireGuard", "fireOut", { ref: first });
    expect(story.state.fires.map((f) => f.outBy?.person ?? null)).toEqual(["bo", null]);
    story.send("supervisor", "fireOut", { ref: first });
    expect([story.life(3), story.life(4)]).toEqual(["shutDown", "fire"]);
    expect(story.state.signals.some((s) => s.id === first)).toBe(false);
  });

  it("[FIR-6, CUT-3] an engine cut during a fire stays shut down for its own reason when the fire is out", () => {
    const story = starting();
    story.send("cockpit", "fire");
    const anywhere = seq(story);
    story.send("fireGuard", "fireOut", { ref: anywhere });
    story.send("supervisor", "fireOut", { ref: anywhere });
    // A fire that named no engine leaves every engine as it was.
    expect(story.state.engines.map((e) => e.life.is)).toEqual(["waiting", "waiting", "waiting", "waiting"]);
  });

  it("[HLD-3] an observer releases no hold of another observer, and the holder of the post it came from does", () => {
    const story = starting();
    story.does(ed, { type: "send", kind: "hold" });
    const byNobody = seq(story);
    const other = { ...ed, id: "gus", name: "Gus", device: "gus-tablet" };
    expect(story.does(other, { type: "send", kind: "release", ref: byNobody }).refusal?.reason).toBe(
      "notYourHold",
    );
    expect(story.send("fireGuard", "release", { ref: byNobody, note: "x" }).refusal?.reason).toBe(
      "notYourHold",
    );
    expect(story.send("supervisor", "release", { ref: byNobody }).refusal?.reason).toBe("notYourHold");
    expect(story.send("supervisor", "release", { ref: byNobody, note: "safe" }).refusal).toBeUndefined();
  });

  it("[REQ-6] an answer of unable withdraws its own request, not the one for another engine", () => {
    const story = starting().requested(3);
    const request = story.openSignal("readyToStart");
    story.answer("supervisor", request, "received");
    expect(story.life(3)).toBe("requested");
    story.answer("supervisor", request, "unable");
    expect(story.life(3)).toBe("waiting");
  });

  it("[CLR-5, CLR-12, SIG-8] each clearance keeps the way in which it ended", () => {
    const story = starting();
    const used = story.cranking(3);
    story.send("cockpit", "startAbandoned", { engine: 3 });
    story.wait(60);
    const revoked = story.readBack(3);
    story.send("supervisor", "revokeClearance", { engine: 3 });
    const is = (id: number) => story.state.ended.find((s) => s.id === id)?.is;
    expect([is(used), is(revoked)]).toEqual(["done", "revoked"]);
    for (const ref of [used, revoked, undefined]) {
      const told = story.copy();
      told.send("cockpit", "cranking", ref === undefined ? { engine: 3 } : { engine: 3, ref });
      expect(told.turnsUncleared(3)).toBe(true);
    }
  });

  it("[CLR-13] a clearance names its end: revoked, expired or wrongly read back", () => {
    const story = starting();
    const expired = story.cleared(3);
    story.wait(30);
    const wrong = story.cleared(3);
    story.answer("cockpit", wrong, "readBack", 2);
    const is = (id: number) => story.state.ended.find((s) => s.id === id)?.is;
    expect([is(expired), is(wrong)]).toEqual(["expired", "readBackWrong"]);
  });

  it("[OIL-1] oil below the first indication does not count, and a second reading does not change the time of the first", () => {
    const story = starting().caught(3);
    const first = () => {
      const life = story.state.engines[2]?.life;
      return life?.is === "caught" ? life.firstOilAt : "not caught";
    };
    story.oil(3, 4);
    expect(first()).toBeNull();
    story.waitMs(500);
    story.oil(3, 5);
    const seen = story.now;
    expect(first()).toBe(seen);
    story.waitMs(500);
    story.oil(3, 8);
    expect(first()).toBe(seen);
  });

  it("[ENG-4] oil read on an engine that did not catch changes no state", () => {
    const story = starting();
    story.cranking(3);
    story.oil(3, 60);
    expect(story.life(3)).toBe("cranking");
  });

  it("[EVT-5, ENG-4] a shut-down keeps its reason, or gets one if none was given", () => {
    const story = starting().started(3);
    const reason = () => {
      const life = story.state.engines[2]?.life;
      return life?.is === "shutDown" ? life.reason : null;
    };
    const copy = story.copy();
    story.send("cockpit", "shutDown", { engine: 3, note: "rough" });
    expect(reason()).toBe("rough");
    copy.send("cockpit", "shutDown", { engine: 3 });
    expect(copy.state.engines[2]?.life).toMatchObject({ is: "shutDown", reason: "reported" });
  });

  it("[HLD-5] a hold keeps its note, and null where there was none", () => {
    const story = starting();
    story.send("fireGuard", "hold", { note: "man in the arc" });
    story.send("fireGuard", "hold");
    expect(story.state.holds.map((h) => h.note)).toEqual(["man in the arc", null]);
  });

  it("[CHK-6] a check keeps its note, and null where there was none", () => {
    const story = starting();
    story.say("fireGuard", { type: "recordCheck", check: "bottles", good: true, note: "one at 80 %" });
    expect(story.state.checks.bottles?.note).toBe("one at 80 %");
    story.say("fireGuard", { type: "recordCheck", check: "bottles", good: true });
    expect(story.state.checks.bottles?.note).toBeNull();
  });
});

describe("conditions that stand on more than one thing", () => {
  it("[MCN-3] a check is taken by its own name", () => {
    const story = given({ type: applying("areaChecked", "extinguisherChecked") }).upTo("starting");
    story.say("fireGuard", { type: "recordCheck", check: "extinguisher", good: false });
    story.say("supervisor", { type: "recordCheck", check: "area", good: true });
    expect(areaChecked.find(story.state, 3, story.now).is).toBe("yes");
    expect(extinguisherChecked.find(story.state, 3, story.now).is).toBe("no");
  });

  it("[MCN-6] training names the first lapsed person; if all are current, it holds until the nearest date", () => {
    const story = given();
    const until = { cockpit: story.now + 2_000, supervisor: story.now + 1_000 };
    story.does({ ...ada, currentUntil: until.cockpit }, { type: "claimPost", post: "cockpit" });
    story.does({ ...di, currentUntil: until.supervisor }, { type: "claimPost", post: "supervisor" });
    const at = (now: number) => postsCurrent.find(story.state, 0, now);
    expect(at(story.now)).toEqual({ is: "yes", at: null, by: null, until: until.supervisor });
    const named = (post: string, name: string, moment: number) => ({
      ...{ is: "no", at: moment, by: { post, name }, until: null, found: post },
    });
    expect(at(until.supervisor - 1).is).toBe("yes");
    expect(at(until.supervisor)).toEqual(named("supervisor", "Di", until.supervisor));
    expect(at(until.cockpit)).toEqual(named("cockpit", "Ada", until.cockpit));
    expect(postsCurrent.find(given().manned().state, 0, story.now).until).toBeNull();
  });

  it("[OVR-5, OVR-7] a condition that was set aside but is met is in the basis as met", () => {
    const story = given({ type: { ...FOUR, overridable: ["brakesSet"] } }).upTo("starting");
    const is = () => findAll(story.state, 3, story.now).find((r) => r.id === "brakesSet")?.is;
    story.brakes(10);
    for (const who of [ada, di])
      story.does(who, { type: "override", condition: "brakesSet", engine: 3, reason: "known" });
    expect(is()).toBe("overridden");
    story.brakes(1000);
    expect(is()).toBe("yes");
    story.waitMs(1);
    story.brakes(10);
    expect(is()).toBe("no");
  });

  it("[MCN-7, CLR-2] a service's unmet condition says how old its answer is", () => {
    const story = given({ order: [3] }).upTo("warmUp");
    story.brakes(10);
    story.wait(7);
    expect(unmetForService(story.state, "removeChocks", story.now)).toMatchObject([
      { id: "brakesSet", is: "no", age: 7_000 },
    ]);
    const never = given().upTo("starting");
    expect(unmetForService({ ...never.state, brakes: null }, "removeChocks", never.now)).toMatchObject([
      { id: "brakesSet", is: "unknown", age: null },
    ]);
  });

  it("[STG-11] checks of the ground power post count on ground power and not on batteries", () => {
    const advance = (powerSource: "groundPower" | "batteries") => {
      const story = given({ powerSource }).upTo("groundPower");
      return story.say("supervisor", { type: "advance", to: "starting" }).refusal?.missing ?? [];
    };
    expect(advance("groundPower")).toContain("check:cart");
    expect(advance("batteries")).not.toContain("check:cart");
  });
});

describe("a plan's own figures", () => {
  it("[STG-1] heading, elevation and advice are kept if given, and absent if not", () => {
    const crew = { cockpit: null, fireGuard: null, groundPower: null, supervisor: null };
    const fact = {
      ...({ type: "planned", aircraft: "CH-TST", place: "North ramp", aircraftType: FOUR } as const),
      ...{ order: [3, 4], powerSource: "groundPower" as const, lastRan: [], defects: [], crew },
    };
    const mark = { id: "p", digest: "d", clientAt: 0 };
    const said = { headingDeg: 90, elevationFt: 1200, orderAdvice: { order: [4, 3], extra: 2 } };
    expect(plan("s", { ...fact, ...said }, di, mark, 1).state).toMatchObject(said);
    for (const key of Object.keys(said))
      expect(Object.hasOwn(plan("s", fact, di, mark, 1).state, key), key).toBe(false);
  });
});
