import { describe, expect, it } from "vitest";
import { aboveFigures } from "../../shared/figures/above.ts";
import { figuresNow, figuresOfEngine } from "../../shared/figures/all.ts";
import { bladesNextFigure } from "../../shared/figures/bladesNext.ts";
import { generatorFigure } from "../../shared/figures/generator.ts";
import { idleFigure } from "../../shared/figures/idle.ts";
import { stretchesAbove } from "../../shared/models/exceedance.ts";
import { recordOf } from "../../shared/paper/record.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { readAircraftType } from "../../shared/types/validate.ts";
import { say } from "../../shared/words/en.ts";
import { seeded } from "../print/troubled.ts";
import { given, type Story } from "../spec/given.ts";
import { STOPPED } from "../spec/stoppable.ts";
import { RICH } from "./rich.ts";
import { inputOf } from "./told.ts";

const source = { basis: "invented", text: "for tests" } as const;
const rpm = (value: number) => ({ value, unit: "rpm", source }) as const;
/** 1,000 rpm until the oil is at 40 °C, as the 1946 airline rules give for one engine; 1,200 rpm after that. */
const STEPPED: AircraftType = {
  ...RICH,
  idle: [
    { rpm: rpm(1000) },
    { rpm: rpm(1200), from: { gauge: "oilTemp", atLeast: { value: 40, unit: "degC", source }, keep: 60 } },
  ],
};

describe("the steps of the idle", () => {
  const begun = (type = STEPPED) =>
    given({ type, order: [3] })
      .manned()
      .upTo("starting")
      .started(3);
  const oil = (story: Story, value: number) => story.reading("oilTemp", 3, value, "degC");
  const figure = (story: Story) => idleFigure(story.state, 3, story.now);

  it("[FIG-32] stays at the first step until the oil's figure itself, and not a degree before", () => {
    const story = begun();
    expect(figure(story)).toMatchObject({ words: "idle", value: 1000, unit: "rpm" });
    oil(story, 39.9);
    expect(figure(story)?.value).toBe(1000);
    oil(story, 40);
    expect(figure(story)).toMatchObject({ words: "idle.last", value: 1200 });
  });

  it("[FIG-32] forecasts the next step by Newton's law: 90 - 70 e^(-t / 300) is at 40 after 300 ln 1.4 = 100.9 s", () => {
    const story = begun();
    for (let t = 0; t <= 60; t += 10) {
      oil(story, 90 - 70 * Math.exp(-t / 300));
      if (t < 60) story.wait(10);
    }
    expect(figure(story)?.detail).toBe("then 1200 rpm, by oilTemp in 41 s, plus or minus 0 s");
    story.wait(10);
    expect(figure(story)?.detail).toMatch(/ in 31 s,/);
  });

  it("[FIG-32] a rise is counted from the first reading since the catch", () => {
    const rise: AircraftType = {
      ...RICH,
      warmUp: [],
      idle: [
        { rpm: rpm(1000) },
        { rpm: rpm(1200), from: { gauge: "oilTemp", riseOf: { value: 5.6, unit: "degC", source } } },
      ],
    };
    const story = begun(rise);
    oil(story, 12);
    oil(story, 17.5);
    expect(figure(story)?.value).toBe(1000);
    oil(story, 17.6);
    expect(figure(story)?.value).toBe(1200);
  });

  it("[FIG-32] the cockpit sees it of each engine that turns; nobody of one that stands, in a return or without steps", () => {
    const story = begun();
    const shown = (post: "cockpit" | "supervisor") =>
      figuresNow(story.state, post, story.now).map((f) => f.id);
    expect(shown("cockpit")).toContain("idle:3");
    expect(shown("supervisor")).not.toContain("idle:3");
    expect(idleFigure(story.state, 4, story.now)).toBeNull();
    expect(idleFigure(begun(RICH).state, 3, 0)).toBeNull();
    const back = given({ type: { ...STOPPED, idle: STEPPED.idle as never }, purpose: "return" }).upTo(
      "arrival",
    );
    expect(figuresOfEngine(back.state, 3, back.now).map((f) => f.id)).not.toContain("idle:3");
  });

  it("[FIG-32] a type's steps rise, and each but the first has a gauge of each engine in its unit", () => {
    const kestle = seeded("kestle-four");
    const faults = (idle: unknown) => {
      const read = readAircraftType({ ...kestle, idle });
      return "faults" in read ? read.faults.map((f) => f.path) : [];
    };
    const [first, second] = kestle.idle ?? [];
    expect(faults(kestle.idle)).toEqual([]);
    expect(faults([first, { ...second, rpm: rpm(1000) }])).toEqual(["idle.1.rpm.value"]);
    expect(faults([first, first])).toEqual(["idle.1.from", "idle.1.rpm.value"]);
    expect(faults([second, second])).toEqual(["idle.0.from", "idle.1.rpm.value"]);
    const at = { value: 104, unit: "degF", source };
    expect(faults([first, { ...second, from: { gauge: "oilTemp", atLeast: at } }])).toEqual([
      "idle.1.from.atLeast.unit",
    ]);
    expect(faults([first, { ...second, from: { gauge: "suction", atLeast: at } }])).toEqual([
      "idle.1.from.gauge",
    ]);
  });
});

describe("a gauge read above its most", () => {
  it("[FIG-33] each stretch begins with the first reading above and ends with the first that is not", () => {
    const reads = [10, 21, 25, 20, 19, 30].map((value, i) => ({ at: i * 1000, value }));
    expect(stretchesAbove(reads, 20)).toEqual([
      { from: 1000, to: 3000, most: 25, last: 2000 },
      { from: 5000, to: null, most: 30, last: 5000 },
    ]);
    expect(stretchesAbove([], 20)).toEqual([]);
  });

  const hot = () => {
    const gauges = STOPPED.gauges.map((g) => (g.id === "cylinderTemp" ? { ...g, max: 260 } : g));
    const story = given({ type: { ...STOPPED, gauges }, order: [3] })
      .manned()
      .upTo("starting")
      .started(3);
    const read = (value: number) => story.reading("cylinderTemp", 3, value, "degC");
    return { story, read };
  };
  const above = ({ state, now }: Story) => aboveFigures(state, 3, now);

  it("[FIG-33] is shown with the time since, until it is read at its most", () => {
    const { story, read } = hot();
    read(260);
    expect(above(story)).toEqual([]);
    read(261);
    story.wait(30);
    expect(above(story)).toMatchObject([{ value: 30, verdict: "bad", detail: "cylinderTemp" }]);
    expect(inputOf(above(story)[0] ?? null, "highest read").value).toBe(261);
    read(260);
    expect(above(story)).toEqual([]);
  });

  it("[FIG-33] the record lists it with the highest reading and its seconds", () => {
    const { story, read } = hot();
    read(265);
    story.wait(20);
    read(273);
    story.wait(15);
    read(255);
    read(262);
    const rows = recordOf(story.log, "", say).exceedances.map((r) => r.words);
    expect(rows).toEqual([
      "ABOVE ITS MOST, number 3: cylinderTemp up to 273 °C, most 260 °C, for at least 35 s",
      "ABOVE ITS MOST, number 3: cylinderTemp up to 262 °C, most 260 °C, for at least 0 s, not read lower since",
    ]);
  });
});

describe("blades of the next start", () => {
  it("[FIG-34] are due more than 30 minutes after the stop, three revolutions of three blades (FAA-H-8083-30)", () => {
    const type: AircraftType = { ...STOPPED, bladeCount: RICH.bladeCount, propeller: RICH.propeller };
    const story = given({ type, purpose: "return", order: [2, 3, 1, 4] }).upTo("stopping");
    expect(bladesNextFigure(story.state, 2)).toBeNull();
    story.stopped(2);
    story.air(15);
    const figure = bladesNextFigure(story.state, 2);
    expect(figure).toMatchObject({ words: "bladesNext", detail: "from 30 min after it stopped" });
    expect(figure?.value).toBe(9);
    expect(figure?.caution).toMatch(/colder night/);
  });
});

describe("a generator's load", () => {
  it("[FIG-35] is a part of its rating: 160 of 200 A is 80 %, and a reading above the rating is not good", () => {
    const type = seeded("kestle-four");
    const story = given({
      type: { ...STOPPED, engines: type.engines, gauges: type.gauges, electrical: type.electrical } as never,
      order: [3],
    });
    const n = type.engines.find((e) => e.accessories.includes("generator"))?.n ?? 0;
    const figure = () => generatorFigure(story.state, n);
    story.upTo("starting");
    expect(figure()).toBeNull();
    story.started(n);
    expect(figure()).toMatchObject({ value: null, verdict: "unknown" });
    const load = (amps: number) => story.reading("generatorLoad", n, amps, "A");
    for (const [amps, percent, verdict] of [
      [160, 80, "good"],
      [165, 82.5, "caution"],
      [200, 100, "caution"],
      [205, 102.5, "bad"],
    ] as const) {
      load(amps);
      expect(figure()).toMatchObject({ value: percent, verdict });
    }
  });
});
