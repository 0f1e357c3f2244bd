import { describe, expect, it } from "vitest";
import { airFigures } from "../../shared/figures/air.ts";
import { clearDistances } from "../../shared/figures/blast.ts";
import { guardWalkFigure } from "../../shared/figures/guardWalk.ts";
import { orderFigure } from "../../shared/figures/order.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { given, type Plan, type Say } from "../spec/given.ts";
import { RICH } from "./rich.ts";
import { inputOf, numberIn, told } from "./told.ts";

function air(weather: Partial<Extract<Say, { type: "recordWeather" }>>, more: Plan["more"] = {}) {
  const story = given({ type: RICH, more }).manned();
  story.say("supervisor", { type: "recordWeather", windKt: 0, ...weather });
  const figures = airFigures(story.state);
  return (id: string) => figures.find((f) => f.id === id);
}

describe("air", () => {
  it("[FIG-16] 20 kt from 30 degrees of the nose: 17.321 ahead, 10.000 across from starboard", () => {
    const of = air({ windKt: 20, fromDeg: 20 }, { headingDeg: 350 });
    expect(numberIn(of("headWind"))).toBeCloseTo(17.321, 3);
    expect(told(of("crossWind"))).toMatchObject({ words: "crossWind.starboard", verdict: "good" });
    expect(numberIn(of("crossWind"))).toBeCloseTo(10, 3);
  });

  it("[FIG-16] from behind beyond the limit is not good; the gust counts", () => {
    const of = air({ windKt: 8, gustKt: 10.5, fromDeg: 180 }, { headingDeg: 0 });
    expect(told(of("headWind"))).toMatchObject({ words: "tailWind", verdict: "bad" });
  });

  it("[FIG-16] without a heading the wind has no side: no value, no verdict", () => {
    expect(told(air({ windKt: 20, fromDeg: 20 })("crossWind"))).toMatchObject({
      value: null,
      verdict: "unknown",
    });
  });

  it("[FIG-16] -10 degC in 20 km/h feels like -17.86; above 10 degC there is no chill", () => {
    const windKt = 20 / 1.852;
    expect(numberIn(air({ windKt, temperatureC: -10 })("windChill"))).toBeCloseTo(-17.86, 2);
    expect(air({ windKt, temperatureC: 11 })("windChill")).toBeUndefined();
  });

  it.each([
    [16, 4],
    [17, 5],
    [27, 6],
  ])("[FIG-16] %i kt are force %i (WMO)", (windKt, force) => {
    expect(numberIn(air({ windKt })("beaufort"))).toBe(force);
  });

  it("[FIG-16] density altitude is the field's height in the standard air (ISO 2533), and needs all three readings", () => {
    const standard = { qnhHpa: 1013.25, temperatureC: 15 - 0.0065 * 1524 };
    expect(numberIn(air(standard, { elevationFt: 5000 })("densityAltitude"))).toBeCloseTo(5000, 0);
    expect(told(air(standard)("densityAltitude"))).toMatchObject({ value: null, verdict: "unknown" });
  });
});

describe("ground", () => {
  it("[FIG-17] behind: the stream of 1 MW on 4 m, 56.66 m/s, down to 35 mph; around: the figure", () => {
    const figures = clearDistances(given({ type: RICH }).state);
    const reach = (56.66 * 6.2 * 2.8284) / 15.646;
    expect(numberIn(figures.find((f) => f.id === "clearBehind:public"))).toBeCloseTo(reach, 1);
    expect(numberIn(figures.find((f) => f.id === "clearAround:public"))).toBe(10);
  });

  it("[FIG-17] where the type's figure is larger it stands", () => {
    const distances = RICH.ramp?.distances;
    if (!distances) throw new Error("no distances");
    const far = { ...distances.public, behind: { ...distances.public.behind, value: 100 } };
    const type: AircraftType = { ...RICH, ramp: { ...RICH.ramp, distances: { ...distances, public: far } } };
    const figures = clearDistances(given({ type }).state);
    expect(numberIn(figures.find((f) => f.id === "clearBehind:public"))).toBe(100);
  });

  it("[FIG-18] with nothing turning the guard walks straight to the place outboard of the engine", () => {
    const { state } = given({ type: RICH }).manned();
    // From (-4, 0) to (8, 4 + 2 + 3).
    expect(numberIn(guardWalkFigure(state, 3))).toBeCloseTo(Math.hypot(12, 9), 9);
  });

  it("[FIG-18] walks around the arcs that turn, and says whose", () => {
    const story = given({ type: RICH }).manned().upTo("starting").started(3);
    story.send("fireGuard", "guardInPlace", { engine: 3 });
    const figure = guardWalkFigure(story.state, 2);
    expect(inputOf(figure, "walks around").value).toBe("number 3");
    // The straight way from 3's place to 2's leads through 3's own arc.
    expect(numberIn(figure)).toBeGreaterThan(18);
    expect(figure?.caution).toMatch(/walk around/);
    expect(guardWalkFigure(story.state, 3)).toBeNull();
  });

  it("[FIG-8] the order advised keeps precedence, gives reasons, and says what each other first engine costs", () => {
    const figure = told(orderFigure(given({ type: RICH }).manned().state));
    const order = String(figure.value).split("-").map(Number);
    expect([...order].sort()).toEqual([1, 2, 3, 4]);
    expect(order.indexOf(3)).toBeLessThan(order.indexOf(1));
    expect(figure.inputs.filter((i) => i.name === "because").map((i) => i.value)).toContain(
      "number 3 must come before number 1",
    );
    expect(inputOf(figure, `number ${order[0]} first`).value).toBe(0);
    expect(Number(inputOf(figure, `number ${order[0] === 4 ? 2 : 4} first`).value)).toBeGreaterThan(0);
    expect(inputOf(figure, "number 1 first").value).toBe("not possible");
  });

  it("[FIG-8] a wind across makes upwind engines come first, and another plan is to be looked at", () => {
    const story = given({ type: RICH, more: { headingDeg: 0 } }).manned();
    story.air(15, { windKt: 25, fromDeg: 90 });
    const starboard = told(orderFigure(story.state));
    expect(String(starboard.value)).toBe("4-3-2-1");
    expect(starboard.verdict).toBe("caution");
    story.say("supervisor", { type: "amendPlan", order: [4, 3, 2, 1] });
    expect(orderFigure(story.state)?.verdict).toBe("good");
  });
});
