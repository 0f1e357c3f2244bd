import { describe, expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import { figuresNow, figuresOfAircraft, figuresOfEngine } from "../../shared/figures/all.ts";
import { coolDownFigure, stopOrderFigure, stopsWithFigure } from "../../shared/figures/coolDown.ts";
import { coolDownLeft } from "../../shared/models/warmUp/coolDown.ts";
import { given, type Story } from "../spec/given.ts";
import { STOPPED } from "../spec/stoppable.ts";
import { inputOf, numberIn } from "./told.ts";

describe("Newton's law of cooling", () => {
  /** A bottle at 72 °F in a refrigerator at 44 °F is at 61 °F after 30 minutes. */
  const RATE = Math.log(28 / 17) / 30;
  const bottle = (minutes: number) => 44 + 28 * Math.exp(-RATE * minutes);
  const readings = [0, 5, 10, 15, 20, 25, 30].map((m) => ({ seconds: m * 60, temperature: bottle(m) }));

  it("[FIG-30] is at 50 °F after about 92.6 minutes (Stewart, Calculus, worked example; from memory)", () => {
    const left = coolDownLeft(readings, 50);
    if (!left.ok) throw new Error(left.why);
    expect(30 + (left.value?.seconds ?? 0) / 60).toBeCloseTo(92.6, 1);
    // The same example: 54.3 °F after an hour.
    const hour = coolDownLeft(readings, 54.3);
    expect(30 + (hour.ok ? (hour.value?.seconds ?? 0) / 60 : 0)).toBeCloseTo(60, 0);
  });

  it("[FIG-30] says nothing of a figure below where it levels off, of a rise, or of few readings", () => {
    expect(coolDownLeft(readings, 40)).toEqual({ ok: true, value: null });
    expect(coolDownLeft(readings.slice(0, 4), 50)).toEqual({ ok: true, value: null });
    expect(coolDownLeft([], 50)).toEqual({ ok: true, value: null });
    const rising = readings.map((r, i) => ({ ...r, temperature: 50 + i }));
    expect(coolDownLeft(rising, 40)).toEqual({ ok: true, value: null });
  });
});

describe("the cool-down of an engine", () => {
  const back = () => given({ type: STOPPED, purpose: "return", order: [2, 3, 1, 4] }).upTo("stopping");
  const figure = (story: Story, n = 2) => coolDownFigure(story.state, n, story.now);
  const cool = (story: Story, value: number, n = 2) => story.reading("cylinderTemp", n, value, "degC");

  it("[FIG-2] [FIG-30] has no time left before the engines idle, nor before its gauge is read", () => {
    const story = back();
    cool(story, 150);
    expect(figure(story)).toMatchObject({ value: null, verdict: "unknown" });
    expect(figure(story)?.caution).toMatch(/Nobody has reported yet/);
    story.wait(1);
    story.send("cockpit", "coolDown");
    expect(figure(story)).toMatchObject({ value: null, verdict: "unknown", detail: "cylinderTemp governs" });
    expect(figure(story)?.caution).toMatch(/Read each gauge at idle/);
    // A figure of before the idle is none of its inputs.
    expect(inputOf(figure(story) ?? null, "cylinderTemp, number 2").value).toBeNull();
  });

  it("[FIG-30] the time governs while the gauge is there, and the figure ends with the ask", () => {
    const story = back();
    story.send("cockpit", "coolDown");
    story.wait(20);
    cool(story, 190);
    expect(figure(story)).toMatchObject({ value: 100, verdict: "none", detail: "time at idle governs" });
    story.waitMs(99_999);
    const asked = () => askedOf(story.state, "cockpit", story.now).find((a) => a.engine === 2)?.say;
    expect([figure(story)?.words, asked()]).toEqual(["coolDown", "coolDownTime"]);
    story.waitMs(1);
    expect([figure(story)?.words, figure(story)?.verdict, asked()]).toEqual([
      "coolDown.over",
      "good",
      "stopEngine",
    ]);
  });

  it("[FIG-30] the gauge governs where it is later: 280 °C towards 160 °C by 100 s is at 200 °C after 109.9 s", () => {
    const story = back();
    story.wait(5);
    story.send("cockpit", "coolDown");
    const curve = (t: number) => 160 + 120 * Math.exp(-t / 150);
    for (let t = 0; t <= 80; t += 10) {
      cool(story, curve(t));
      if (t < 80) story.wait(10);
    }
    const at = 150 * Math.log(120 / 40);
    expect(numberIn(figure(story))).toBeCloseTo(at - 80, 1);
    expect(figure(story)?.detail).toMatch(/cylinderTemp governs$/);
    story.wait(10);
    expect(numberIn(figure(story))).toBeCloseTo(at - 90, 1);
  });

  it("[FIG-30] two readings do not say how long", () => {
    const story = back();
    story.send("cockpit", "coolDown");
    cool(story, 260);
    story.wait(10);
    cool(story, 255);
    expect(figure(story)).toMatchObject({ value: null, verdict: "none" });
    expect(figure(story)?.caution).toMatch(/cannot say yet/);
  });

  it("[FIG-30] [FIG-31] a start, and an engine that stands, have none of it", () => {
    const start = given({ type: STOPPED }).upTo("warmUp");
    const ids = (story: Story) =>
      [
        ...figuresOfEngine(story.state, 2, story.now),
        ...figuresOfAircraft(story.state, story.now),
        ...figuresNow(story.state, "cockpit", story.now),
      ].map((f) => f.id.split(":")[0]);
    for (const id of ["coolDown", "stopsWith", "stopOrder"]) expect(ids(start)).not.toContain(id);
    const story = back();
    expect(ids(story)).toEqual(expect.arrayContaining(["coolDown", "stopOrder"]));
    for (const id of ["order", "warmUp"]) expect(ids(story)).not.toContain(id);
    story.stopped(2);
    expect(figure(story)).toBeNull();
  });
});

describe("the order of stopping", () => {
  it("[FIG-31] names the next engine, and the type's order where the plan has another", () => {
    const story = given({ type: STOPPED, purpose: "return", order: [2, 3, 1, 4] }).upTo("stopping");
    expect(stopOrderFigure(story.state)).toMatchObject({
      value: "2-3-1-4",
      verdict: "good",
      detail: "number 2 is stopped next",
    });
    story.stopped(2);
    expect(stopOrderFigure(story.state)?.detail).toBe("number 3 is stopped next");
    for (const n of [3, 1, 4]) story.stopped(n);
    expect(stopOrderFigure(story.state)?.detail).toBe("every engine is stopped");
    const other = given({ type: STOPPED, purpose: "return", order: [1, 2, 3, 4] });
    expect(stopOrderFigure(other.state)).toMatchObject({
      verdict: "caution",
      detail: "number 1 is stopped next; the type has 2-3-1-4",
    });
  });

  it("[FIG-31] what no other turning engine drives stops with the last that drives it", () => {
    const type = {
      ...STOPPED,
      engines: STOPPED.engines.map((e) => ({
        ...e,
        accessories: e.n === 3 ? ["hydraulicPump", "generator"] : e.n === 2 ? ["generator"] : [],
      })),
    };
    const story = given({ type, purpose: "return", order: [2, 3, 1, 4] }).upTo("stopping");
    expect(stopsWithFigure(story.state, 3)?.value).toBe("hydraulic pump");
    expect(stopsWithFigure(story.state, 2)).toBeNull();
    story.stopped(2);
    expect(stopsWithFigure(story.state, 3)?.value).toBe("hydraulic pump, generator");
  });
});
