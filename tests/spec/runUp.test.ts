import { describe, expect, it } from "vitest";
import { fill } from "../../shared/asks/ask.ts";
import { askedOf } from "../../shared/asks/asked.ts";
import { missingFor, requirementsOf } from "../../shared/plan/requirements.ts";
import type { RunUpItem } from "../../shared/protocol/commands.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { say } from "../../shared/words/en.ts";
import { outcomesOf } from "../../shared/words/outcomes.ts";
import { RICH } from "../figures/rich.ts";
import { given, type Story } from "./given.ts";

const GOOD: Record<RunUpItem, number> = {
  powerManifold: 27,
  powerRpm: 1700,
  magnetoBoth: 1700,
  magnetoLeft: 1640,
  magnetoRight: 1650,
  featherBefore: 1700,
  featherLowest: 1620,
  featherAfter: 1700,
};

/** Returns a story with one engine warm to its gate and ground power off. */
function warm(type: AircraftType = RICH, order = [3]): Story {
  const story = given({ type, order }).manned().upTo("warmUp");
  for (const n of order) story.reading("oilTemp", n, 45, "degC");
  story.powerOff();
  return story;
}

function read(story: Story, engine: number, item: RunUpItem, value = GOOD[item]) {
  const unit = item === "powerManifold" ? ("inHg" as const) : ("rpm" as const);
  return story.say("cockpit", { type: "recordRunUp", engine, item, reading: { value, unit } });
}

const items = Object.keys(GOOD) as RunUpItem[];
const missing = (story: Story) => missingFor(story.state, story.now);

describe("run-up", () => {
  it("[RUN-1] takes figures of a turning engine only, within the gauge's scale and in its unit", () => {
    const story = warm();
    expect(read(story, 3, "magnetoBoth").refusal).toBeUndefined();
    expect(read(story, 5, "magnetoBoth").refusal?.reason).toBe("noSuchEngine");
    expect(read(story, 1, "magnetoBoth").refusal?.reason).toBe("wrongEngineState");
    expect(read(story, 3, "magnetoBoth", 3001).refusal?.reason).toBe("outOfRange");
    const wrong = { type: "recordRunUp", engine: 3, item: "magnetoBoth" } as const;
    story.say("cockpit", { ...wrong, reading: { value: 27, unit: "inHg" } });
    expect(story.refused).toBe("wrongUnit");
  });

  it("[RUN-1] a type without feathering has no such figure", () => {
    const { feather: _feather, ...rules } = RICH.runUp as NonNullable<AircraftType["runUp"]>;
    const story = warm({ ...RICH, runUp: rules });
    expect(read(story, 3, "featherBefore").refusal?.reason).toBe("noSuchGauge");
    expect(missing(story).some((m) => m.includes("feather"))).toBe(false);
  });

  it("[RUN-2] keeps the session in warm-up, and names each failing item by its code and in words", () => {
    const story = warm();
    expect(missing(story)).toEqual([
      "runUp:3:magneto:notDone",
      "runUp:3:feather:notDone",
      "runUp:3:power:notDone",
    ]);
    for (const item of items) read(story, 3, item, item === "magnetoLeft" ? 1500 : GOOD[item]);
    expect(missing(story)).toEqual(["runUp:3:magneto:leftOverMax", "runUp:3:magneto:uneven"]);
    for (const requirement of requirementsOf(story.state, story.now))
      expect(outcomesOf(say).missing(requirement)).toMatch(/^Run-up of number 3: magnetos /);
    expect(story.say("supervisor", { type: "advance", to: "release" }).refusal?.missing).toEqual(
      missing(story),
    );
    read(story, 3, "magnetoLeft");
    expect(missing(story)).toEqual([]);
    expect(story.say("supervisor", { type: "advance", to: "release" }).refusal).toBeUndefined();
  });

  it("[RUN-2] needs each named gauge read in the warm-up and within its marks", () => {
    const marked: AircraftType = {
      ...RICH,
      gauges: RICH.gauges.map((g) => (g.id === "oilPressure" ? { ...g, min: 25, max: 100 } : g)),
      runUp: { ...(RICH.runUp as NonNullable<AircraftType["runUp"]>), gauges: ["oilPressure"] },
    };
    const story = warm(marked);
    for (const item of items) read(story, 3, item);
    expect(missing(story)).toEqual(["runUp:3:oilPressure:notRead"]);
    story.oil(3, 24);
    expect(missing(story)).toEqual(["runUp:3:oilPressure:belowMin"]);
    story.oil(3, 25);
    expect(missing(story)).toEqual([]);
  });

  it("[RUN-3] is asked of the cockpit once every engine is warm; failed checks are asked again, oldest first", () => {
    const cold = given({ type: RICH, order: [3] })
      .manned()
      .upTo("warmUp");
    const asked = (story: Story) =>
      askedOf(story.state, "cockpit", story.now)
        .filter((a) => a.say === "runUp")
        .map((a) => a.key);
    expect(asked(cold)).toEqual([]);
    const story = warm();
    expect(asked(story)).toEqual(items.map((item) => `runUp:3:${item}`));
    for (const item of items) {
      story.wait(1);
      read(story, 3, item, item === "magnetoRight" ? 1500 : GOOD[item]);
    }
    expect(asked(story)).toEqual(["runUp:3:magnetoBoth", "runUp:3:magnetoLeft", "runUp:3:magnetoRight"]);
    story.wait(1);
    read(story, 3, "magnetoBoth");
    expect(asked(story)[0]).toBe("runUp:3:magnetoLeft");
  });

  it("[RUN-3, ASK-2] asks only for figures whose entry is accepted", () => {
    const story = warm();
    for (const ask of askedOf(story.state, "cockpit", story.now).filter((a) => a.say === "runUp")) {
      const [choice] = ask.choices;
      if (choice?.need?.is !== "figure") throw new Error("a figure is needed");
      const action = fill(choice, { figure: { value: 30, unit: choice.need.unit } });
      expect(action && story.say("cockpit", action).refusal).toBeUndefined();
    }
  });
});

describe("warm-up readings", () => {
  it("[RUN-4] are kept from the catch on, up to the type's number, always with the first", () => {
    const type: AircraftType = {
      ...RICH,
      warmUp: [{ gauge: "oilTemp", atLeast: { value: 40, unit: "degC", source: RICH.orderSource }, keep: 5 }],
    };
    const story = given({ type, order: [3] })
      .manned()
      .upTo("starting")
      .started(3);
    for (let t = 20; t < 30; t += 1) story.wait(1).reading("oilTemp", 3, t, "degC");
    const kept = story.state.engines[2]?.warmUp?.oilTemp?.map((r) => r.value);
    expect(kept).toEqual([20, 26, 27, 28, 29]);
    story.send("cockpit", "shutDown", { engine: 3 });
    expect(story.state.engines[2]?.warmUp).toBeUndefined();
  });

  it("[RUN-5] may have to rise: from 50 degF, 59 is too low and 60 is enough (airline operations 1946, R-1820)", () => {
    const rise = { value: 10, unit: "degF" as const, source: RICH.orderSource };
    const { runUp: _runUp, ...plainType } = RICH;
    const type: AircraftType = {
      ...plainType,
      gauges: RICH.gauges.map((g) => (g.id === "oilTemp" ? { ...g, unit: "degF" as const } : g)),
      warmUp: [{ gauge: "oilTemp", riseOf: rise }],
    };
    const story = given({ type, order: [3] })
      .manned()
      .upTo("warmUp");
    story.powerOff();
    const read = (value: number) => {
      story.wait(1).reading("oilTemp", 3, value, "degF");
      return missing(story);
    };
    expect(missing(story)).toEqual(["gate:3:oilTemp"]);
    expect(read(50)).toEqual(["gate:3:oilTemp"]);
    expect(read(59)).toEqual(["gate:3:oilTemp"]);
    expect(read(60)).toEqual([]);
  });
});
