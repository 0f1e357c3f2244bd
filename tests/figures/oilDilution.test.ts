import { describe, expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import { figuresNow, figuresOfAircraft } from "../../shared/figures/all.ts";
import { oilDilutionFigure } from "../../shared/figures/oilDilution.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { readAircraftType } from "../../shared/types/validate.ts";
import { phraseBook } from "../../shared/words/phraseBook.ts";
import { workedBook } from "../../shared/words/worked.ts";
import { typeFaults } from "../../web/words/es/typeFaults.ts";
import { given, type Story } from "../spec/given.ts";
import { STOPPED } from "../spec/stoppable.ts";
import { inputOf } from "./told.ts";

const source = { basis: "invented", text: "for tests" } as const;
const published = { basis: "published", text: "TM 1-1500-204-23-3, oil dilution, p. 97" } as const;
const degF = (value: number) => ({ value, unit: "degF", source }) as const;
const percent = (value: number) => ({ value, unit: "percent", source }) as const;
const seconds = (value: number) => ({ value, unit: "s", source }) as const;

/** 10 % down to 10 °F, and never below 15 psi meanwhile, as TM 1-1500-204-23-3 has it; the other figures are made up. */
const DILUTED = {
  ...STOPPED,
  approvedBy: null,
  checks: [
    ...STOPPED.checks,
    {
      ...{
        id: "nightLeast",
        words: "Least temperature expected this night",
        stage: "stopping",
        post: "cockpit",
      },
      range: { unit: "degF" },
      source,
    },
  ],
  stopping: {
    ...(STOPPED.stopping as NonNullable<AircraftType["stopping"]>),
    oilDilution: {
      check: "nightLeast",
      noneFrom: degF(40),
      steps: [
        { downTo: degF(25), percent: percent(5), time: seconds(120) },
        {
          downTo: { ...degF(10), source: published },
          percent: { ...percent(10), source: published },
          time: seconds(240),
        },
        { downTo: degF(-10), percent: percent(20), time: seconds(480) },
      ],
      leastPressure: { value: 15, unit: "psi", source: published },
    },
  },
} as AircraftType;

const back = (type = DILUTED) =>
  given({ type, purpose: "return", order: [2, 3, 1, 4] })
    .manned()
    .upTo("stopping");
const figure = (story: Story) => oilDilutionFigure(story.state);
const forecast = (story: Story, value: number, note?: string) =>
  story.say("cockpit", {
    ...{ type: "recordCheck", check: "nightLeast", reading: { value, unit: "degF" } },
    ...(note === undefined ? {} : { note }),
  });

describe("oil dilution before a cold night", () => {
  it("[FIG-40] asks the cockpit for the forecast with its source, and refuses one of nobody", () => {
    const story = back();
    expect(figure(story)).toMatchObject({ value: null, verdict: "unknown" });
    const asked = () => askedOf(story.state, "cockpit", story.now).find((a) => a.key === "check:nightLeast");
    expect(asked()?.choices[0]?.need).toEqual({ is: "forecast", unit: "degF" });
    expect(forecast(story, 10).refusal?.reason).toBe("missingFigure");
    expect(asked()).toBeDefined();
    expect(forecast(story, 10, "Weather office").refusal).toBeUndefined();
    expect(asked()).toBeUndefined();
    expect(inputOf(figure(story), "least temperature of the night")).toMatchObject({
      ...{ value: 10, unit: "degF", source: "said by Ada: Weather office", at: story.now },
    });
    expect(figuresNow(story.state, "cockpit", story.now).map((f) => f.id)).toContain("oilDilution");
    expect(figuresNow(story.state, "fireGuard", story.now).map((f) => f.id)).not.toContain("oilDilution");
  });

  it("[FIG-40] 10 % serves a night of 10 °F, -12 °C (TM 1-1500-204-23-3), and not one of a degree less", () => {
    const story = back();
    const at = (value: number) => {
      forecast(story, value, "Weather office");
      const { words, value: time = null, verdict, detail = "" } = figure(story) ?? {};
      return [words, time, verdict, detail.split(" ")[0]];
    };
    expect(at(10)).toEqual(["oilDilution", 240, "none", "10"]);
    expect(at(9)).toEqual(["oilDilution", 480, "none", "20"]);
    expect(at(24.9)).toEqual(["oilDilution", 240, "none", "10"]);
    expect(at(25)).toEqual(["oilDilution", 120, "none", "5"]);
    expect(at(39.9)).toEqual(["oilDilution", 120, "none", "5"]);
    expect(at(40)).toEqual(["oilDilution.none", 0, "good", ""]);
    expect(at(-10)).toEqual(["oilDilution", 480, "none", "20"]);
    expect(at(-11)).toEqual(["oilDilution", null, "bad", ""]);
  });

  it("[FIG-40] is bad below the least oil pressure, 15 psi, and too late once no engine turns", () => {
    const story = back();
    forecast(story, 10, "Weather office");
    story.oil(2, 15);
    expect(figure(story)?.verdict).toBe("none");
    story.oil(2, 14);
    expect(figure(story)).toMatchObject({
      verdict: "bad",
      caution: expect.stringContaining("do not dilute"),
    });
    for (const n of [2, 3, 1, 4]) story.stopped(n);
    expect(figure(story)).toMatchObject({
      verdict: "caution",
      caution: expect.stringMatching(/^No engine turns/),
    });
  });

  it("[FIG-40] without the data nothing is asked and nothing shown, nor in a start", () => {
    const story = back(STOPPED);
    expect(figure(story)).toBeNull();
    expect(askedOf(story.state, "cockpit", story.now).map((a) => a.key)).not.toContain("check:nightLeast");
    expect(figuresOfAircraft(given({ type: DILUTED }).state, 0).map((f) => f.id)).not.toContain(
      "oilDilution",
    );
  });

  it("[FIG-40] [LNG-8] is told in Spanish, all of it", () => {
    const told = workedBook("es");
    for (const value of [10, 50, -40]) {
      const story = back();
      forecast(story, value, "Weather office");
      const {
        inputs,
        equation,
        source: law,
        detail,
        caution,
      } = figure(story) as NonNullable<ReturnType<typeof figure>>;
      const said = inputs.filter((i) => i.source.startsWith("said by"));
      const texts = [
        ...inputs.map((i) => i.name),
        equation,
        law,
        detail ?? "",
        ...(caution ? [caution] : []),
      ];
      for (const text of texts.filter((t) => t !== ""))
        expect(
          told(text).filter((p) => p.asWritten && p.words === text),
          text,
        ).toEqual([]);
      expect(said.map((i) => told(i.source)[0]?.words)).toEqual([expect.stringMatching(/^dicho por/)]);
    }
  });
});

describe("a type's oil dilution", () => {
  type Rule = NonNullable<NonNullable<AircraftType["stopping"]>["oilDilution"]>;
  const faultsOf = (change: (rule: Rule, type: AircraftType) => void) => {
    const type = structuredClone(DILUTED);
    change(type.stopping?.oilDilution as Rule, type);
    const read = readAircraftType(type);
    return "faults" in read ? read.faults : [];
  };
  const check = (type: AircraftType) =>
    type.checks.find((c) => c.id === "nightLeast") as AircraftType["checks"][number];

  it("[FIG-40] is valid as in these tests", () => expect(faultsOf(() => {})).toEqual([]));

  it.each<[string, (rule: Rule, type: AircraftType) => void, string]>([
    ["no such check", (r) => Object.assign(r, { check: "none" }), "check"],
    ["a check of another unit", (_, t) => Object.assign(check(t), { range: { unit: "psi" } }), "check"],
    ["a check of another post", (_, t) => Object.assign(check(t), { post: "supervisor" }), "check"],
    ["a check with a range", (_, t) => Object.assign(check(t), { range: { unit: "degF", min: 0 } }), "check"],
    ["another unit", (r) => Object.assign(r.noneFrom, { unit: "degC" }), "noneFrom.unit"],
    [
      "another unit of a step",
      (r) => Object.assign(r.steps[1]?.downTo ?? {}, { unit: "degC" }),
      "steps.1.downTo.unit",
    ],
    [
      "steps that get warmer",
      (r) => Object.assign(r.steps[1]?.downTo ?? {}, { value: 30 }),
      "steps.1.downTo.value",
    ],
    ["less fuel for more cold", (r) => Object.assign(r.steps[2]?.percent ?? {}, { value: 4 }), "steps.2"],
    ["fuel in psi", (r) => Object.assign(r.steps[0]?.percent ?? {}, { unit: "psi" }), "steps.0.percent.unit"],
    ["pressure in volts", (r) => Object.assign(r.leastPressure ?? {}, { unit: "V" }), "leastPressure.unit"],
  ])("[FIG-40] is refused with its place: %s", (_, change, path) => {
    const found = faultsOf(change).find((f) => f.path === `stopping.oilDilution.${path}`);
    expect(found).toBeDefined();
    expect(phraseBook(typeFaults)(found?.message ?? "").filter((p) => p.asWritten)).toEqual([]);
  });
});
