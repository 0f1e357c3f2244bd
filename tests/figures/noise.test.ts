import { describe, expect, it } from "vitest";
import { noiseFigures } from "../../shared/figures/noise.ts";
import { type NoiseLog, noiseLogOf } from "../../shared/figures/noiseLog.ts";
import { permittedHours, timeWeightedAverage } from "../../shared/models/weather/noise.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { must } from "../models/must.ts";
import { fay, given, START, type Story } from "../spec/given.ts";
import { RICH } from "./rich.ts";
import { numberIn } from "./told.ts";

const HOUR = 3_600_000;
const RULE = { criterionDBA: 90, exchangeDb: 5, thresholdDBA: 80 };
const { ramp, ...rest } = RICH;
const { noise: _noise, ...unheard } = ramp ?? { noise: undefined };
/** The same aircraft without noise levels. */
const SILENT = { ...rest, ramp: unheard } as AircraftType;

/** Engine 3 turning, everybody at the usual post. Ada in the cockpit at 100 dBA, Bo at 105, Cy at 95, Di at 70. */
function turning(type: AircraftType = RICH): Story {
  return given({ type, order: [3] })
    .manned()
    .upTo("starting")
    .started(3);
}

const logOf = (story: Story) => noiseLogOf(story.log) as NoiseLog;
const crankedAt = (story: Story) =>
  story.log.find((e) => e.fact.type === "sent" && e.fact.kind === "cranking")?.at ?? 0;
const of = (id: string, own: NoiseLog, others: NoiseLog[], now: number) =>
  noiseFigures(own, others, now).find((f) => f.id === `noise:${id}`);

describe("noise over the day", () => {
  // 29 CFR 1910.95 Table G-16a, and Table A-1 of its appendix A: dose to eight-hour average. From memory.
  it("[FIG-9] the rule's own tables: hours permitted at a level, and the average of a dose", () => {
    for (const [dBA, hours] of [
      [80, 32],
      [85, 16],
      [90, 8],
      [95, 4],
      [100, 2],
      [105, 1],
      [110, 0.5],
      [115, 0.25],
    ] as const)
      expect(must(permittedHours(dBA, RULE))).toBeCloseTo(hours, 9);
    for (const [dose, average] of [
      [10, 73.4],
      [25, 80],
      [50, 85],
      [75, 87.9],
      [100, 90],
      [200, 95],
      [400, 100],
    ] as const)
      expect(Math.round((must(timeWeightedAverage(dose, RULE)) ?? 0) * 10) / 10).toBe(average);
  });

  it("[FIG-9, NOI-1] half an hour at 100 dBA is a quarter of a day's dose, at 105 half; below the threshold nothing", () => {
    const story = turning();
    const now = crankedAt(story) + HOUR / 2;
    const own = logOf(story);
    expect(numberIn(of("ada", own, [], now))).toBeCloseTo(25, 6);
    expect(of("ada", own, [], now)?.verdict).toBe("good");
    expect(numberIn(of("bo", own, [], now))).toBeCloseTo(50, 6);
    expect(of("bo", own, [], now)?.verdict).toBe("caution");
    expect(of("bo", own, [], now + HOUR / 2)?.verdict).toBe("bad");
    expect(numberIn(of("di", own, [], now))).toBe(0);
  });

  it("[NOI-1] nobody before an engine turns, nor after the last stopped, nor after the session is over", () => {
    const still = given({ type: RICH, order: [3] })
      .manned()
      .upTo("starting");
    still.wait(60);
    expect(logOf(still).spans).toEqual([]);
    expect(noiseFigures(logOf(still), [], still.now).map((f) => f.value)).toEqual([0, 0, 0, 0]);
    const stopped = turning();
    stopped.send("cockpit", "shutDown", { engine: 3 });
    const values = (now: number) => noiseFigures(logOf(stopped), [], now).map((f) => f.value);
    expect(values(stopped.now + HOUR)).toEqual(values(stopped.now));
    expect(values(stopped.now)).not.toContain(null);
    const { runUp: _runUp, ...brief } = RICH;
    const over = given({ type: brief, order: [3] })
      .manned()
      .upTo("closed");
    expect(logOf(over).state.engines[2]?.life.is).toBe("stable");
    expect(logOf(over).spans.length).toBeGreaterThan(0);
    expect(logOf(over).spans.filter((s) => s.to === null)).toEqual([]);
  });

  it("[NOI-1] a stay ends with the post, and the next person's begins", () => {
    const story = turning();
    const from = crankedAt(story);
    story.wait(600);
    story.say("fireGuard", { type: "offerPost", post: "fireGuard", to: "fay" });
    story.does(fay, { type: "acceptPost", post: "fireGuard" });
    const changed = story.now;
    const guards = logOf(story).spans.filter((s) => s.post === "fireGuard");
    expect(guards).toEqual([
      { person: "bo", name: "Bo", post: "fireGuard", from, to: changed },
      { person: "fay", name: "Fay", post: "fireGuard", from: changed, to: null },
    ]);
  });

  it("[NOI-2] adds up the sessions of the last 24 hours, and lets go of what is older, midnight or not", () => {
    const first = turning();
    first.waitMs(crankedAt(first) + HOUR / 2 - first.now);
    first.send("cockpit", "shutDown", { engine: 3 });
    const second = turning();
    const own = logOf(second);
    const now = crankedAt(second) + HOUR / 2;
    // Both stories begin at the same moment, so the first is moved back by hours.
    const earlier = (hours: number): NoiseLog => ({
      ...logOf(first),
      spans: logOf(first).spans.map((s) => ({
        ...s,
        from: s.from - hours * HOUR,
        to: (s.to ?? 0) - hours * HOUR,
      })),
    });
    const dose = (hours: number) => numberIn(of("ada", own, [earlier(hours)], now));
    expect(dose(2)).toBeCloseTo(50, 6);
    // START is 9:00 UTC: eleven hours before it is another date.
    expect(new Date(START - 11 * HOUR).getUTCDate()).not.toBe(new Date(START).getUTCDate());
    expect(dose(11)).toBeCloseTo(50, 6);
    expect(dose(23.5)).toBeCloseTo(50, 6);
    expect(dose(23.75)).toBeCloseTo(37.5, 6);
    expect(dose(24)).toBeCloseTo(25, 6);
  });

  it("[NOI-2] each stay by its own type's rule", () => {
    const strict = {
      ...RICH,
      ramp: { ...ramp, noise: { ...ramp?.noise, exchange: { ...ramp?.noise?.exchange, value: 3 } } },
    } as AircraftType;
    const story = turning(strict);
    const now = crankedAt(story) + HOUR / 2;
    // 100 dBA with 3 dB halving: 8 / 2^(10 / 3) h.
    const hours = 8 / 2 ** (10 / 3);
    expect(numberIn(of("ada", logOf(story), [], now))).toBeCloseTo(50 / hours, 6);
    expect(numberIn(of("ada", logOf(turning()), [logOf(story)], now))).toBeCloseTo(25 + 50 / hours, 6);
  });

  it("[NOI-3] a post without a level leaves the dose unknown, until what is known is half of one", () => {
    const quiet = turning(SILENT);
    const own = logOf(turning());
    const at = crankedAt(quiet);
    const told = of("ada", own, [logOf(quiet)], at + HOUR / 2);
    expect(told).toMatchObject({ value: null, verdict: "unknown" });
    expect(told?.inputs).toContainEqual(
      expect.objectContaining({ name: "of what is known", unit: "percent" }),
    );
    expect(told?.caution).toMatch(/gives no level/);
    expect(of("bo", own, [logOf(quiet)], at + HOUR / 2)).toMatchObject({ verdict: "caution" });
    expect(noiseFigures(logOf(quiet), [], at + HOUR)).toEqual([]);
  });

  it("[NOI-5] opens to each stay, its level, and the time left at the post held now", () => {
    const story = turning();
    const now = crankedAt(story) + HOUR / 2;
    const told = of("bo", logOf(story), [], now);
    expect(told?.detail).toBe("Bo");
    const input = (name: string) => told?.inputs.find((i) => i.name === name);
    expect(input("CH-TST: at fire guard, engines turning")).toMatchObject({ value: 0.5, unit: "h" });
    expect(input("sound at fire guard")).toMatchObject({ value: 105, unit: "dBA" });
    // Half a dose is left, which at 105 dBA is half an hour.
    expect(input("at fire guard until a whole dose")).toMatchObject({ value: 0.5, unit: "h" });
    const supervisor = of("di", logOf(story), [], now);
    expect(supervisor?.inputs.find((i) => i.name === "at supervisor until a whole dose")?.value).toBe(
      "no end",
    );
  });
});
