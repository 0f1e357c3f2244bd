import { describe, expect, it } from "vitest";
import { demo } from "../../seed/demo-data.ts";
import { figuresOfAircraft, figuresOfEngine } from "../../shared/figures/all.ts";
import { noiseFigures } from "../../shared/figures/noise.ts";
import { noiseLogOf } from "../../shared/figures/noiseLog.ts";
import { readAircraftType } from "../../shared/types/validate.ts";
import { figures as words } from "../../shared/words/en/figures.ts";
import { FOUR } from "../spec/aircraft.ts";
import { given, type Story } from "../spec/given.ts";
import { RICH } from "./rich.ts";

/** Returns every figure of a session now. */
function every(story: Story) {
  const { state, now } = story;
  return [
    ...state.engines.flatMap((e) => figuresOfEngine(state, e.n, now)),
    ...figuresOfAircraft(state, now),
    ...noiseFigures(noiseLogOf(story.log), [], now),
  ];
}

/** Returns a story with many readings: the air, volts while cranking, warm-up, a run-up begun. */
function busy(): Story {
  const story = given({ type: RICH, more: { headingDeg: 0, elevationFt: 100 } }).manned();
  story.air(-2, { windKt: 12, gustKt: 18, fromDeg: 30, qnhHpa: 1013 });
  story.upTo("starting");
  story.cranking(3);
  story.volts(25);
  story.wait(8).send("cockpit", "caught", { engine: 3 });
  return story;
}

describe("every figure", () => {
  it("[FIG-1] opens to inputs with source and age, its equation and its source, and has words and its own id", () => {
    const story = busy();
    const figures = every(story);
    expect(figures.length).toBeGreaterThan(40);
    expect(new Set(figures.map((f) => f.id)).size).toBe(figures.length);
    for (const f of figures) {
      expect(Object.keys(words.names), f.id).toContain(f.words);
      expect(f.inputs.length, f.id).toBeGreaterThan(0);
      expect(f.equation.length, f.id).toBeGreaterThan(5);
      expect(f.source.length, f.id).toBeGreaterThan(2);
      for (const i of f.inputs) {
        expect(i.source.length, `${f.id}: ${i.name}`).toBeGreaterThan(2);
        // A figure that a person read has a time.
        if (/read by|said by|counted by/.test(i.source)) expect(i.at, `${f.id}: ${i.name}`).not.toBeNull();
        expect(i.at ?? 0, `${f.id}: ${i.name}`).toBeLessThanOrEqual(story.now);
      }
    }
  });

  it("[FIG-1] is plain JSON: no figure is infinite or not a number", () => {
    for (const f of every(busy())) expect(JSON.parse(JSON.stringify(f)), f.id).toEqual(f);
  });

  it("[FIG-2] of a small type only what it has data for is there", () => {
    const { state, now } = given({ type: FOUR }).manned().upTo("starting");
    expect(figuresOfEngine(state, 1, now).map((f) => f.id)).toEqual(["blades:1", "alive:1", "starterRest:1"]);
    expect(figuresOfAircraft(state, now).map((f) => f.id)).toEqual(["groundPower"]);
    expect(noiseFigures(null, [], now)).toEqual([]);
  });

  it("[FIG-2] nothing read: no value, no verdict, and what is missing is said", () => {
    const { state, now } = given({ type: RICH });
    const figures = [...figuresOfEngine(state, 1, now), ...figuresOfAircraft(state, now)];
    const unknown = figures.filter((f) => f.verdict === "unknown").map((f) => f.id);
    expect(unknown).toEqual(
      expect.arrayContaining(["preheat:1", "oilViscosity:1", "expectedVolts:1", "startsLeft", "magneto:1"]),
    );
    for (const f of figures)
      if (f.verdict === "unknown" && f.id !== "preheat:1") expect(f.value, f.id).toBeNull();
  });

  it.each(demo.types.map((t) => [t.id, t] as const))(
    "[FIG-1] of the demo's %s all have words",
    (_id, type) => {
      const { state, now } = given({ type, more: { headingDeg: 90 } });
      for (const f of [...figuresOfEngine(state, 1, now), ...figuresOfAircraft(state, now)]) {
        expect(Object.keys(words.names), f.id).toContain(f.words);
      }
    },
  );

  it("[FIG-1] the rich test type is itself valid", () => {
    expect(readAircraftType(RICH)).toEqual({ type: RICH });
  });
});
