import { describe, expect, it } from "vitest";
import { bladesCounted } from "../../shared/conditions/propellers.ts";
import { groundPowerVerdict } from "../../shared/power/groundPower.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { FOUR } from "./aircraft.ts";
import { given, type Story } from "./given.ts";

const source = { basis: "invented", text: "for tests" } as const;
const limit = <U extends string>(value: number, unit: U) => ({ value, unit, source });

describe("volts while an engine cranks", () => {
  const starting = { min: limit(18, "V"), max: limit(29, "V") };
  const banded: AircraftType = { ...FOUR, groundPower: { ...FOUR.groundPower, starting } };
  const cranking = (type: AircraftType = banded) => {
    const story = given({ type }).upTo("starting");
    story.cranking(3);
    return story;
  };
  const verdict = (story: Story) => groundPowerVerdict(story.state);

  it("[PWR-6] are judged by the starting band, where the type has one", () => {
    const story = cranking();
    expect(verdict(story)).toMatchObject({ band: "steady", within: true, volts: { value: 28 } });
    story.volts(20);
    expect(verdict(story)).toMatchObject({ band: "starting", within: true, volts: { value: 20 } });
    expect(story.alerts).toEqual([]);
    story.volts(17);
    expect(verdict(story)).toMatchObject({ band: "starting", within: false });
    expect(story.alerts).toEqual(["groundPowerOutOfRange"]);
  });

  it("[PWR-6] are no steady volts: the earlier reading counts again when the engine caught", () => {
    const story = cranking();
    story.volts(20);
    expect(story.state.groundPower).toMatchObject({ is: "on", volts: { value: 28 } });
    story.send("cockpit", "caught", { engine: 3 });
    expect(verdict(story)).toMatchObject({ band: "steady", within: true, volts: { value: 28 } });
  });

  it("[PWR-6] of an earlier attempt do not count for this one", () => {
    const story = cranking();
    story.volts(20);
    story.send("cockpit", "startAbandoned", { engine: 3 });
    story.wait(60);
    story.cranking(3);
    expect(verdict(story)).toMatchObject({ band: "steady", volts: { value: 28 } });
  });

  it("[PWR-6] are steady volts for a type without a starting band", () => {
    const story = cranking(FOUR);
    story.volts(20);
    expect(story.state.groundPower).toMatchObject({ volts: { value: 20 } });
    expect(verdict(story)).toMatchObject({ band: "steady", within: false });
    expect(story.alerts).toEqual(["groundPowerOutOfRange"]);
  });

  it("[PWR-5, PWR-6] are steady volts when nothing cranks", () => {
    const story = given({ type: banded }).upTo("starting");
    story.volts(20);
    expect(verdict(story)).toMatchObject({ band: "steady", within: false });
    expect(given().manned().state.groundPower.is).not.toBe("on");
    expect(verdict(given().manned())).toBeNull();
  });

  it("[STR-4] are kept with the engagement: the lowest, from the cart and from the bus", () => {
    const story = cranking();
    const lowest = (n = 3) => story.state.engines[n - 1]?.starter.at(-1)?.lowest;
    expect(lowest()).toBeUndefined();
    for (const volts of [22, 20, 24]) story.volts(volts);
    expect(lowest()).toMatchObject({ value: 20, unit: "V", from: "groundPower", name: "Cy" });
    story.say("cockpit", { type: "reading", gauge: "busVolts", reading: { value: 19, unit: "V" } });
    expect(lowest()).toMatchObject({ value: 19, from: "busVolts" });
    // An equal reading later changes nothing, and an engine that no longer cranks keeps its lowest volts.
    story.waitMs(500);
    const first = lowest();
    story.volts(19);
    expect(lowest()).toEqual(first);
    story.send("cockpit", "caught", { engine: 3 });
    story.say("cockpit", { type: "reading", gauge: "busVolts", reading: { value: 12, unit: "V" } });
    expect(lowest()).toEqual(first);
    expect(lowest(4)).toBeUndefined();
  });
});

describe("readings of the warm-up", () => {
  const keeping = (keep: number): AircraftType => ({
    ...FOUR,
    warmUp: [{ gauge: "oilTemp", atLeast: limit(40, "degC"), keep }],
  });
  const kept = (story: Story, n = 3) => story.state.engines[n - 1]?.warmUp?.oilTemp?.map((r) => r.value);

  it("[MOD-32, STG-9] are kept up to the type's number: the first and the newest", () => {
    const story = given({ type: keeping(5) })
      .upTo("starting")
      .started(3);
    for (const value of [10, 12, 14, 16, 18, 20, 22]) story.reading("oilTemp", 3, value, "degC");
    expect(kept(story)).toEqual([10, 16, 18, 20, 22]);
    expect(kept(story, 4)).toBeUndefined();
  });

  it("[MOD-32] are not kept of an engine that does not turn, of another gauge, or where only the newest counts", () => {
    const story = given({ type: keeping(5) }).upTo("starting");
    story.reading("oilTemp", 3, 10, "degC");
    expect(kept(story)).toBeUndefined();
    story.started(3);
    expect(Object.keys(story.state.engines[2]?.warmUp ?? {})).toEqual([]);
    const plain = given().upTo("starting").started(3);
    plain.reading("oilTemp", 3, 10, "degC");
    expect(kept(plain)).toBeUndefined();
    expect(plain.state.engines[2]?.readings.oilTemp?.value).toBe(10);
  });

  it("[STG-9, MOD-32] give a rise from the first reading of each engine", () => {
    const type: AircraftType = { ...FOUR, warmUp: [{ gauge: "oilTemp", riseOf: limit(15, "degC") }] };
    const story = given({ type, order: [3] })
      .upTo("starting")
      .started(3);
    story.say("supervisor", { type: "advance", to: "warmUp" });
    story.powerOff();
    const missing = () => story.say("supervisor", { type: "advance", to: "release" }).refusal?.missing;
    expect(missing()).toContain("gate:3:oilTemp");
    story.reading("oilTemp", 3, 10, "degC");
    story.wait(60);
    story.reading("oilTemp", 3, 24, "degC");
    expect(missing()).toContain("gate:3:oilTemp");
    story.reading("oilTemp", 3, 25, "degC");
    story.heard();
    expect(missing()).toBeUndefined();
  });
});

describe("blades counted through", () => {
  const type: AircraftType = { ...FOUR, conditions: [...FOUR.conditions, "bladesCounted"] };
  const counted = (blades: number) => {
    const story = given({ type, order: [3, 4] }).upTo("secure");
    story.send("fireGuard", "handlePropeller", { engine: 3 });
    story.answer("cockpit", story.openSignal("handlePropeller"), "authorise");
    story.say("fireGuard", { type: "countBlades", engine: 3, blades, resistance: false });
    return story;
  };
  const at = (story: Story, ms: number) => bladesCounted.find(story.state, 3, story.now + ms);

  it("[MCN-1] count for the type's time, with the time of its end", () => {
    const story = counted(9);
    expect(at(story, 0)).toMatchObject({ is: "yes", at: story.now, until: story.now + 1_800_000 });
    expect(at(story, 1_799_999).is).toBe("yes");
    expect(at(story, 1_800_000).is).toBe("stale");
  });

  it("[MCN-1] are too few below the type's number, with the number reached", () => {
    expect(at(counted(8), 0)).toMatchObject({ is: "no", found: "8 of 9" });
  });

  it("[MCN-1] are not due soon after a run, with the time at which they are", () => {
    const story = given({ type, order: [3, 4] }).upTo("secure");
    const [one, two, three, four] = story.state.engines;
    if (!one || !two || !three || !four) throw new Error("there are four engines");
    const ran = { ...story.state, engines: [one, two, { ...three, lastRanAt: story.now - 600_000 }, four] };
    expect(bladesCounted.find(ran, 3, story.now)).toMatchObject({
      is: "yes",
      until: story.now + 1_200_000,
    });
    expect(bladesCounted.find(ran, 3, story.now + 1_200_000).is).not.toBe("yes");
    expect(bladesCounted.find(story.state, 3, story.now).is).toBe("unknown");
    expect(bladesCounted.find(story.state, 9, story.now).is).toBe("unknown");
  });
});
