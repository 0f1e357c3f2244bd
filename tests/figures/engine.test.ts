import { describe, expect, it } from "vitest";
import { bladesFigure } from "../../shared/figures/blades.ts";
import { oilTimers, oilViscosity, preheatFigure } from "../../shared/figures/oil.ts";
import { starterHeat, starterRest } from "../../shared/figures/starter.ts";
import { warmUpFigure } from "../../shared/figures/warmUp.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { given, START, type Story } from "../spec/given.ts";
import { RICH } from "./rich.ts";
import { inputOf, numberIn, told } from "./told.ts";

describe("starter", () => {
  /** Returns a story of a failed attempt: cranked for 40 s on a mild day. */
  function failed(temperatureC: number | null = 15, type = RICH) {
    const story = given({ type }).manned().upTo("starting");
    if (temperatureC !== null) story.air(temperatureC);
    return story.failedStart(3, temperatureC === 15 ? 40 : 20);
  }

  it("[FIG-5] rests as long as its ladder says (TM 55-1510-215-10: 40 s on, 60 s off)", () => {
    const story = failed();
    expect(numberIn(starterRest(story.state, 3, story.now))).toBe(60);
    expect(starterRest(story.state, 3, story.now)?.verdict).toBe("bad");
    story.wait(60);
    expect(starterRest(story.state, 3, story.now)).toMatchObject({ value: 0, verdict: "good" });
    expect(inputOf(starterRest(story.state, 3, story.now), "next may last").value).toBe(40);
  });

  it("[FIG-5] cold it rests by the cold ladder, and unread by whichever asks more", () => {
    expect(numberIn(starterRest(failed(-5).state, 3, failed(-5).now))).toBe(120);
    const story = failed(null);
    const figure = starterRest(story.state, 3, story.now);
    expect(numberIn(figure)).toBe(120);
    expect(inputOf(figure, "next may last").value).toBe(20);
    expect(figure?.caution).toMatch(/has not been read/);
  });

  it("[FIG-11] heat 80 to be down to 40 with a time constant of 600 s: 415.888 s", () => {
    const story = failed();
    const figure = starterHeat(story.state, 3, story.now);
    expect(numberIn(figure)).toBeCloseTo(80, 9);
    expect(inputOf(figure, "rest until cool enough").value).toBeCloseTo(415.888, 3);
    expect(figure?.verdict).toBe("caution");
    expect(figure?.caution).toMatch(/ladder decides/);
    story.wait(416);
    expect(starterHeat(story.state, 3, story.now)?.verdict).toBe("good");
    const { starter } = RICH;
    const heat = starter.heat && { ...starter.heat, most: { ...starter.heat.most, value: 79 } };
    const hotter = failed(15, { ...RICH, starter: { ...starter, ...(heat && { heat }) } });
    expect(starterHeat(hotter.state, 3, hotter.now)?.verdict).toBe("bad");
  });
});

describe("oil", () => {
  it("[FIG-6] tells the seconds left to both limits, counted from the catch (airline operations 1946: 5 s, 10 s)", () => {
    const story = given({ type: RICH }).manned().upTo("starting");
    expect(oilTimers(story.state, 3, story.now)).toEqual([]);
    story.caught(3).wait(3);
    const [first, normal] = oilTimers(story.state, 3, story.now);
    expect([first?.value, normal?.value]).toEqual([2, 7]);
    story.oil(3, 5);
    story.wait(8);
    const later = oilTimers(story.state, 3, story.now);
    expect(later.map((f) => f.verdict)).toEqual(["good", "bad"]);
  });

  it("[FIG-12] viscosity is the grade's own at its point, by the oil's temperature before the air's", () => {
    const story = given({ type: RICH }).manned().upTo("starting");
    story.air(40);
    expect(numberIn(oilViscosity(story.state, 3))).toBeCloseTo(212, 6);
    expect(oilViscosity(story.state, 3)?.caution).toMatch(/air's temperature/);
    story.started(3).reading("oilTemp", 3, 100, "degC");
    expect(numberIn(oilViscosity(story.state, 3))).toBeCloseTo(19.5, 6);
    expect(oilViscosity(story.state, 3)?.caution).toBeUndefined();
  });

  it("[FIG-12] below 0 degC it says that it is extrapolated, and too thick is not good", () => {
    const story = given({ type: RICH }).manned();
    story.air(-15);
    const figure = oilViscosity(story.state, 3);
    expect(figure?.verdict).toBe("bad");
    expect(figure?.caution).toMatch(/extrapolated/);
  });

  it("[FIG-12] preheat is required below 10 degF (Service Instruction 1505) until it is recorded as done", () => {
    const story = given({ type: RICH }).manned();
    const figure = () => told(preheatFigure(story.state, 1, story.now));
    expect(figure()).toMatchObject({ words: "preheat.notKnown", verdict: "unknown" });
    story.air(-12.2);
    expect(figure()).toMatchObject({ words: "preheat.notRequired", verdict: "good" });
    story.air(-12.3);
    expect(figure()).toMatchObject({ words: "preheat.required", verdict: "bad" });
    story.say("cockpit", { type: "recordCheck", check: "preheat", good: true });
    expect(figure()).toMatchObject({ words: "preheat.done", verdict: "good" });
  });
});

describe("warm-up left", () => {
  /** T = 90 - 70 e^(-t / 300): 20 degC at the beginning, 40 at 300 ln 1.4. */
  function warming(story: Story, n: number, steady: number, until: number) {
    const begun = story.now;
    for (let t = 0; t <= until; t += 10) {
      story.reading("oilTemp", n, steady - (steady - 20) * Math.exp(-t / 300), "degC");
      story.wait(10);
    }
    return begun;
  }

  it("[FIG-7] follows Newton's law to the gate", () => {
    const story = given({ type: RICH, order: [3] })
      .manned()
      .upTo("warmUp");
    const begun = warming(story, 3, 90, 60);
    const figure = warmUpFigure(story.state, story.now);
    const gate = 300 * Math.log(70 / 50);
    expect(numberIn(figure)).toBeCloseTo(gate - (story.now - begun) / 1000, 3);
    expect(Number(inputOf(figure, "plus or minus").value)).toBeLessThan(1);
    expect(inputOf(figure, "waited for").value).toBe(3);
    // The time left falls as time passes, without a new reading.
    story.wait(5);
    expect(numberIn(warmUpFigure(story.state, story.now))).toBeCloseTo(numberIn(figure) - 5, 6);
  });

  it("[FIG-7] names the engine all wait for, and is open when every engine is there", () => {
    const story = given({ type: RICH, order: [3, 4] })
      .manned()
      .upTo("warmUp");
    warming(story, 3, 90, 60);
    warming(story, 4, 60, 60);
    expect(inputOf(warmUpFigure(story.state, story.now), "waited for").value).toBe(4);
    for (const n of [3, 4]) story.reading("oilTemp", n, 40, "degC");
    expect(warmUpFigure(story.state, story.now)).toMatchObject({ words: "warmUp.open", verdict: "good" });
  });

  it("[FIG-7] data that cannot say give no time and no verdict", () => {
    const story = given({ type: RICH, order: [3] })
      .manned()
      .upTo("warmUp");
    story.reading("oilTemp", 3, 20, "degC");
    const figure = warmUpFigure(story.state, story.now);
    expect([figure?.value, figure?.verdict]).toEqual([null, "none"]);
    expect(figure?.caution).toMatch(/cannot say yet/);
  });
});

describe("blades due", () => {
  const ranAgo = (minutes: number, type: AircraftType = RICH) =>
    given({ type, more: { lastRan: [1, 2, 3, 4].map(() => START - minutes * 60_000) } });

  it("[FIG-15] 30 minutes not due, 31 due: three revolutions of three blades (FAA-H-8083-30)", () => {
    const at = (minutes: number) => {
      const { state, now } = ranAgo(minutes);
      return told(bladesFigure(state, 1, now));
    };
    expect(at(30)).toMatchObject({ words: "blades.none", value: 0, verdict: "good" });
    expect(at(31)).toMatchObject({ words: "blades", value: 9, verdict: "caution" });
    expect(inputOf(at(31), "stood").value).toBeCloseTo(31 / 60, 9);
  });

  it("[FIG-15] a count too short is not good, a whole one is, resistance never", () => {
    const story = given({ type: RICH }).manned().upTo("secure");
    const count = (blades: number, resistance = false) => {
      if (!story.state.handling) {
        story.send("groundPower", "handlePropeller", { engine: 1 });
        story.answer("cockpit", story.openSignal("handlePropeller"), "authorise");
      }
      story.say("groundPower", { type: "countBlades", engine: 1, blades, resistance });
      return bladesFigure(story.state, 1, story.now)?.verdict;
    };
    expect(count(8)).toBe("bad");
    expect(count(9)).toBe("good");
    expect(count(9, true)).toBe("bad");
  });
});
