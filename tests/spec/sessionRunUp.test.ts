import { describe, expect, it } from "vitest";
import { demo } from "../../seed/demo-data.ts";
import { checkApplies, preheatOf, preheatRequired } from "../../shared/checks/preheat.ts";
import type { ReleaseFault } from "../../shared/models/runUp/release.ts";
import { requirementCode } from "../../shared/plan/requirement.ts";
import { RUN_UP_ITEMS, type RunUpItem } from "../../shared/protocol/commands.ts";
import type { Unit } from "../../shared/protocol/quantity.ts";
import { itemGauge, releaseVerdict, runUpChecks, runUpFault } from "../../shared/runUp/verdict.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { FOUR } from "./aircraft.ts";
import { given, type Story } from "./given.ts";
import { runUp, RUN_UP as TYPE, unfeathered } from "./runUpType.ts";

const source = { basis: "invented", text: "for tests" } as const;
const faultCode = (fault: ReleaseFault) => requirementCode({ is: "runUp", fault: runUpFault(fault) });

const GOOD: Readonly<Record<RunUpItem, number>> = {
  ...{ powerManifold: 30, powerRpm: 2000, magnetoBoth: 2000, magnetoLeft: 1940, magnetoRight: 1950 },
  ...{ featherBefore: 1500, featherLowest: 1420, featherAfter: 1495 },
};
const unitOf = (item: RunUpItem): Unit => (item === "powerManifold" ? "inHg" : "rpm");
const record = (story: Story, item: RunUpItem, value: number, engine = 3, unit = unitOf(item)) =>
  story.say("cockpit", { type: "recordRunUp", engine, item, reading: { value, unit } });
const warm = (type = TYPE) => given({ type, order: [3, 4] }).upTo("warmUp");
const ran = (over: Partial<Record<RunUpItem, number>> = {}, engines = [3, 4]) => {
  const story = warm();
  for (const engine of engines) {
    for (const item of RUN_UP_ITEMS)
      record(story, item, { ...GOOD, ...(engine === 3 ? over : {}) }[item], engine);
  }
  return story;
};
const codes = (story: Story) => releaseVerdict(story.state)?.faults.map(faultCode);

describe("the run-up of a session", () => {
  it("[MOD-81] with every check done and good on every turning engine there is no fault", () => {
    const story = ran();
    expect(codes(story)).toEqual([]);
    expect(releaseVerdict(story.state)?.ready).toBe(true);
  });

  it("[MOD-81] each check that was not done is a fault, for each engine", () => {
    expect(codes(ran({}, [4]))?.sort()).toEqual([
      "runUp:3:feather:notDone",
      "runUp:3:magneto:notDone",
      "runUp:3:power:notDone",
    ]);
  });

  it("[MOD-81] a check counts once all of its figures are read", () => {
    const story = ran({}, [4]);
    record(story, "magnetoBoth", 2000);
    record(story, "magnetoLeft", 1940);
    expect(codes(story)).toContain("runUp:3:magneto:notDone");
    record(story, "magnetoRight", 1950);
    expect(codes(story)).not.toContain("runUp:3:magneto:notDone");
  });

  it.each([
    [{ magnetoLeft: 1899, magnetoRight: 1900 }, /^runUp:3:magneto:leftOverMax$/],
    [{ magnetoLeft: 1990, magnetoRight: 1940 }, /^runUp:3:magneto:/],
    [{ featherLowest: 1399 }, /^runUp:3:feather:/],
    [{ featherAfter: 1459 }, /^runUp:3:feather:/],
    [{ powerManifold: 31.5 }, /^runUp:0:power:spread$/],
  ] as const)("[MOD-77, MOD-78, MOD-79, MOD-81] %o is a fault of that check alone", (over, code) => {
    const found = codes(ran(over)) ?? [];
    expect(found).toHaveLength(1);
    expect(found[0]).toMatch(code);
  });

  it("[MOD-81] a figure recorded again takes the place of the older one", () => {
    const story = ran({ magnetoLeft: 1800 });
    expect(codes(story)).toContain("runUp:3:magneto:leftOverMax");
    record(story, "magnetoLeft", 1950);
    expect(codes(story)).toEqual([]);
  });

  it("[MOD-81] a type without run-up rules has no run-up, and one without a feathering propeller no check of it", () => {
    expect(runUpChecks(FOUR)).toEqual([]);
    expect(releaseVerdict(warm(FOUR).state)).toBeNull();
    expect(runUpChecks({ ...TYPE, runUp: unfeathered })).toEqual(["power", "magneto"]);
    expect(runUpChecks(TYPE)).toEqual(["power", "magneto", "feather"]);
    expect(itemGauge({ ...TYPE, runUp: unfeathered }, "featherLowest")).toBeUndefined();
    expect(itemGauge(TYPE, "featherLowest")?.id).toBe("rpm");
    expect(itemGauge(TYPE, "powerManifold")?.id).toBe("manifold");
    expect(itemGauge(FOUR, "powerRpm")).toBeUndefined();
  });

  it("[MOD-81] a gauge of the run-up counts as read from the warm-up on, and by its marks", () => {
    const story = warm({
      ...TYPE,
      runUp: { ...runUp, gauges: ["oilPressure"] },
      gauges: TYPE.gauges.map((g) => (g.id === "oilPressure" ? { ...g, min: 25 } : g)),
    });
    const ofOil = (state = story.state) =>
      (releaseVerdict(state)?.faults ?? []).map(faultCode).filter((c) => c.includes("oilPressure"));
    const unread = ["runUp:3:oilPressure:notRead", "runUp:4:oilPressure:notRead"];
    // Both were read at the catch; the warm-up began after that.
    expect(ofOil({ ...story.state, stageSince: story.now + 1 })).toEqual(unread);
    story.oil(3, 60);
    story.oil(4, 60);
    expect(ofOil()).toEqual([]);
    story.oil(4, 24);
    expect(ofOil()).toEqual(["runUp:4:oilPressure:belowMin"]);
    // In another stage the last reading counts, whenever it was made.
    expect(ofOil({ ...story.state, stage: "release", stageSince: story.now + 1 })).toEqual([
      "runUp:4:oilPressure:belowMin",
    ]);
  });

  it.each([
    [{ code: "gaugeUnreadable", engine: 2, gauge: "rpm", why: "off the scale" }, "runUp:2:rpm:unreadable"],
    [{ code: "unreadable", engine: 2, check: "power", why: "no" }, "runUp:2:power:unreadable"],
    [{ code: "unreadable", engine: null, check: "power", why: "no" }, "runUp:0:power:unreadable"],
    [{ code: "gauge", engine: null, gauge: "busVolts", band: "over" }, "runUp:0:busVolts:over"],
    [{ code: "manifoldSpread", engine: null, spread: 2, highest: 3, lowest: 1 }, "runUp:0:power:spread"],
  ] as const)("[MOD-81, STG-12] a fault has its code: %o", (fault, code) => {
    expect(faultCode(fault)).toBe(code);
  });

  it.each([
    [() => record(warm(), "magnetoBoth", 2000, 7), { reason: "noSuchEngine", engine: 7, found: "1 to 4" }],
    [() => record(warm(FOUR), "magnetoBoth", 2000), { reason: "noSuchGauge", found: "magnetoBoth" }],
    [
      () => record(warm(), "magnetoBoth", 2000, 1),
      { reason: "wrongEngineState", engine: 1, found: "waiting" },
    ],
    [() => record(warm(), "magnetoBoth", 20, 3, "inHg"), { reason: "wrongUnit", found: "rpm" }],
    [() => record(warm(), "magnetoBoth", 3001), { reason: "outOfRange", found: "0 to 3000 rpm" }],
    [() => record(warm(), "magnetoBoth", -1), { reason: "outOfRange", found: "0 to 3000 rpm" }],
  ] as const)("[CHK-5, REF-1] refused in full, case %#", (way, refusal) => {
    expect(way().refusal).toEqual(refusal);
  });

  it("[CHK-5] the ends of the scale belong to it", () => {
    const story = warm();
    expect(record(story, "magnetoBoth", 3000).refusal).toBeUndefined();
    expect(record(story, "magnetoBoth", 0).refusal).toBeUndefined();
  });
});

describe("preheating", () => {
  const below = { value: 5, unit: "degC" } as const;
  const heated = (soak?: { value: number; unit: "h" }): AircraftType => ({
    ...FOUR,
    oil: {
      ...FOUR.oil,
      preheat: {
        below: { ...below, source },
        ...(soak ? { soak: { ...soak, source } } : {}),
        check: "battery",
      },
    } as AircraftType["oil"],
  });
  const cold = (temperatureC: number | null, type = heated()) => {
    const story = given({ type, order: [3, 4] }).manned();
    if (temperatureC !== null) story.say("supervisor", { type: "recordWeather", windKt: 2, temperatureC });
    return story;
  };
  const need = (story: Story) => {
    const engine = story.state.engines[2];
    return engine && preheatOf(story.state, engine, story.now);
  };

  it("[STG-11] depends on the type's rule and the recorded air", () => {
    expect(need(cold(0, FOUR))).toBe("noRule");
    expect(need(cold(null))).toBe("notKnown");
    expect(need(cold(4))).toBe("required");
    expect(need(cold(5))).toBe("notRequired");
  });

  it("[STG-11] is not needed for an engine that ran recently, if the type names a soak", () => {
    const story = cold(0, heated({ value: 2, unit: "h" }));
    const stood = (ms: number) => {
      const engine = { ...(story.state.engines[2] ?? never()), lastRanAt: story.now };
      return preheatOf(story.state, engine, story.now + ms);
    };
    expect(stood(60_000)).toBe("notRequired");
    expect(stood(3 * 3_600_000)).toBe("required");
    // An engine never seen running has stood long enough.
    expect(need(story)).toBe("required");
  });

  it("[STG-11] has a check that counts only if it is required; every other check always counts", () => {
    const counts = (degC: number, check: string) => {
      const story = cold(degC);
      return checkApplies(story.state, check, story.now);
    };
    expect([counts(0, "battery"), counts(20, "battery")]).toEqual([true, false]);
    expect([counts(0, "bottles"), counts(20, "bottles")]).toEqual([true, true]);
  });

  it("[STG-11] is asked for engines of the order that do not turn", () => {
    const story = cold(0);
    expect(preheatRequired(story.state, story.now)).toBe(true);
    expect(preheatRequired({ ...story.state, order: [] }, story.now)).toBe(false);
    const turning = story.state.engines.map((e) => ({ ...e, life: { is: "stable", since: 0 } as const }));
    expect(preheatRequired({ ...story.state, engines: turning }, story.now)).toBe(false);
    expect(preheatRequired(cold(20).state, story.now)).toBe(false);
  });
});

function never(): never {
  throw new Error("there are four engines");
}

describe("the demo's types", () => {
  it.each(demo.types.map((t) => [t.id, t] as const))(
    "[MOD-81, SED-1] %s: every item of its run-up is read on a gauge it has",
    (_id, type) => {
      const checks = runUpChecks(type);
      expect(checks.length).toBeGreaterThan(0);
      for (const item of RUN_UP_ITEMS) {
        const asked = checks.some((c) => item.startsWith(c));
        expect(itemGauge(type, item) !== undefined, item).toBe(asked);
      }
    },
  );
});
