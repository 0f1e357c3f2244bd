import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { choice } from "../../shared/asks/ask.ts";
import { askedOf } from "../../shared/asks/asked.ts";
import { gravityFigures } from "../../shared/figures/gravity.ts";
import { startsLeftFigure } from "../../shared/figures/startsLeft.ts";
import { type Battery, chargeFromGravity, openCircuitVolts } from "../../shared/models/electrical/battery.ts";
import { startAmpHours } from "../../shared/models/electrical/startsLeft.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { readAircraftType } from "../../shared/types/validate.ts";
import { figureSpec } from "../../web/posts/shared/figures.ts";
import { wordsNow } from "../../web/words/words.ts";
import { must } from "../models/must.ts";
import { given, type Story } from "../spec/given.ts";
import { RICH } from "./rich.ts";
import { inputOf, numberIn } from "./told.ts";

const source = { basis: "invented", text: "for tests" } as const;
const electrical = RICH.electrical as NonNullable<AircraftType["electrical"]>;
const range = (unit: "degF" | "degC" | "count", min: number, max: number) => ({ unit, min, max });
const check = (id: string, of: ReturnType<typeof range>) =>
  ({ id, words: `Battery: ${id}`, stage: "powerUp", post: "cockpit", range: of, source }) as const;

/** Returns the rich type with one battery whose hydrometer is read: 12 cells, 1.12 discharged and 1.28 charged. */
function hydrometer(unit: "degF" | "degC" = "degF"): AircraftType {
  const [battery] = electrical.batteries ?? [];
  if (!battery) throw new Error("the rich type lacks a battery");
  const gravity = { check: "gravity", temperature: "warm", rule: "fourPointsPer10F" as const, source };
  return {
    ...RICH,
    checks: [
      ...RICH.checks,
      check("warm", unit === "degF" ? range(unit, 0, 120) : range(unit, -18, 49)),
      check("gravity", range("count", 1.24, 1.3)),
    ],
    electrical: { ...electrical, batteries: [{ ...battery, gravity }] },
  };
}

function manned(type = hydrometer()): Story {
  const story = given({ type, powerSource: "batteries" }).manned();
  story.air(25);
  return story;
}
const reads = (story: Story, id: string, value: number, unit: "degF" | "degC" | "count" | "V") =>
  story.say("cockpit", { type: "recordCheck", check: id, reading: { value, unit } });

describe("a hydrometer's reading", () => {
  // Worked examples of engine-generator service manuals: 1.250 at 20 °F is 1.226, 1.235 at 100 °F is 1.243.
  it.each([
    [1.25, 20, 1.226, false],
    [1.235, 100, 1.243, true],
    [1.25, 80, 1.25, true],
    // Exact to one point: 1.240 is in the range, 1.239 is not.
    [1.244, 70, 1.24, true],
    [1.243, 70, 1.239, false],
  ])("[GRV-1] %f at %f degF counts as %f, good: %s", (read, degF, at80F, good) => {
    const story = manned();
    reads(story, "warm", degF, "degF");
    expect(reads(story, "gravity", read, "count").refusal).toBeUndefined();
    // The record keeps the figure as it was read.
    expect(story.state.checks.gravity).toMatchObject({ reading: { value: read, unit: "count" }, good });
    const [figure] = gravityFigures(story.state);
    expect(numberIn(figure)).toBeCloseTo(at80F, 9);
    expect(figure?.verdict).toBe(good ? "good" : "bad");
    expect(inputOf(figure, "one, gravity read").value).toBe(read);
    expect(inputOf(figure, "one, electrolyte").at).not.toBeNull();
  });

  it("[GRV-1] the temperature may be read in Celsius: -6.667 °C is 20 °F", () => {
    const story = manned(hydrometer("degC"));
    reads(story, "warm", -20 / 3, "degC");
    reads(story, "gravity", 1.25, "count");
    expect(numberIn(gravityFigures(story.state)[0])).toBeCloseTo(1.226, 9);
  });

  it("[GRV-2] without its electrolyte's temperature it is refused, and so is one of no acid", () => {
    const story = manned();
    expect(reads(story, "gravity", 1.25, "count").refusal).toEqual({
      reason: "missingFigure",
      found: "Battery: warm",
    });
    expect(gravityFigures(story.state)[0]).toMatchObject({ value: null, verdict: "unknown" });
    // Off every thermometer's scale: recorded, found not good, and not used.
    reads(story, "warm", 280, "degF");
    expect(reads(story, "gravity", 1.25, "count").refusal?.reason).toBe("missingFigure");
    reads(story, "warm", 80, "degF");
    expect(reads(story, "gravity", 0.98, "count").refusal).toEqual({
      reason: "outOfRange",
      found: "1 to 1.4",
    });
    expect(story.state.checks.gravity).toBeUndefined();
  });

  it("[GRV-2] is asked for once its electrolyte's temperature is found good", () => {
    const story = given({ type: hydrometer() }).manned().upTo("secure");
    story.state = { ...story.state, stage: "powerUp" };
    const asked = () => askedOf(story.state, "cockpit", story.now).map((a) => a.key);
    expect(asked()).toContain("check:warm");
    expect(asked()).not.toContain("check:gravity");
    reads(story, "warm", 280, "degF");
    expect(asked()).not.toContain("check:gravity");
    reads(story, "warm", 60, "degF");
    expect(asked()).toContain("check:gravity");
  });

  it("[GRV-3] tells the charge straight from discharged to charged, and what lies outside by the model of the volts", () => {
    const battery: Battery = { chemistry: "leadAcid", cells: 12, full: 1.28, empty: 1.12, voltsPerKelvin: 0 };
    expect(must(chargeFromGravity(battery, 1.12))).toBe(0);
    expect(must(chargeFromGravity(battery, 1.2))).toBeCloseTo(0.5, 9);
    expect(must(chargeFromGravity(battery, 1.28))).toBe(1);
    expect(must(chargeFromGravity(battery, 1.05))).toBe(0);
    expect(chargeFromGravity(battery, 1.31).ok).toBe(false);
    expect(chargeFromGravity({ chemistry: "nickelCadmium", cells: 20, cellVolts: 1.27 }, 1.2).ok).toBe(false);
    // The volts of a cell at rest follow its gravity: both ways to the charge agree.
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), (charge) => {
        const volts = must(openCircuitVolts(battery, charge, 25));
        expect(must(chargeFromGravity(battery, volts / 12 - 0.84))).toBeCloseTo(charge, 9);
      }),
      { seed: 4 },
    );
  });

  it("[GRV-3] of volts and gravity the lower charge counts for the starts left, by Peukert's law", () => {
    const left = (volts: number | null, gravity: number | null) => {
      const story = manned();
      reads(story, "warm", 80, "degF");
      if (volts !== null) reads(story, "battery", volts, "V");
      if (gravity !== null) reads(story, "gravity", gravity, "count");
      return startsLeftFigure(story.state);
    };
    // 25.44 V and 1.28 are fully charged; 24.48 V and 1.20 are half charged.
    const charge = (volts: number | null, gravity: number | null) =>
      inputOf(left(volts, gravity), "one, charge").value as number;
    expect(charge(25.44, null)).toBeCloseTo(100, 6);
    expect(charge(null, 1.2)).toBeCloseTo(50, 6);
    expect(charge(25.44, 1.2)).toBeCloseTo(50, 6);
    expect(charge(24.48, 1.28)).toBeCloseTo(50, 6);
    expect(left(null, null)).toMatchObject({ value: null, verdict: "unknown" });
    // I t / 3600 (I / Irated)^(k - 1) with 400 A for 15 s, 36 Ah over 1 h, k = 1.15.
    const each = ((400 * 15) / 3600) * (400 / 36) ** 0.15;
    expect(inputOf(left(25.44, null), "one, one start takes").value).toBeCloseTo(each, 9);
    expect(
      must(startAmpHours({ amps: 400, seconds: 15 }, { ampHours: 36, hours: 1, exponent: 1.15 })),
    ).toBeCloseTo(each, 9);
    expect(inputOf(left(25.44, null), "one, Peukert's exponent").value).toBe(1.15);
  });

  it("[GRV-4] stands corrected beside the figure while it is entered, its good range moved with it", () => {
    const story = manned();
    const draft = { type: "recordCheck", check: "gravity" } as const;
    const asked = choice("read", "yes", draft, { is: "figure", field: "reading", unit: "count" });
    const spec = () => figureSpec(story.state, asked, story.now, wordsNow());
    expect(spec()?.result?.(1.25)).toMatch(/temperature first/);
    reads(story, "warm", 20, "degF");
    expect(spec()?.result?.(1.25)).toBe("At 80 °F 1.226, 66 % charged");
    expect(spec()?.low).toBeCloseTo(1.264, 9);
    expect(spec()).toMatchObject({ from: 1.05, to: 1.35, step: 0.001 });
    expect(spec()?.result?.(1.35)).toMatch(/no acid/);
  });

  it("[TYP-11] a type whose checks cannot carry it is named faulty", () => {
    const type = hydrometer();
    const [battery] = type.electrical?.batteries ?? [];
    if (!battery?.gravity) throw new Error("no battery");
    const faults = (gravity: object, checks = type.checks) => {
      const batteries = [{ ...battery, gravity: { ...battery.gravity, ...gravity } }];
      const read = readAircraftType({ ...type, checks, electrical: { ...type.electrical, batteries } });
      return "faults" in read ? read.faults.map((f) => f.path) : [];
    };
    expect(faults({})).toEqual([]);
    expect(faults({ check: "battery" })).toContain("electrical.batteries.0.gravity.check");
    expect(faults({ temperature: "gravity" })).toContain("electrical.batteries.0.gravity.temperature");
    expect(faults({}, [...type.checks].reverse())).toContain("electrical.batteries.0.gravity.temperature");
  });
});
