import { describe, expect, it } from "vitest";
import { cableDrop } from "../../shared/figures/cableDrop.ts";
import { expectedVolts, seenVolts } from "../../shared/figures/crankingVolts.ts";
import { groundPowerFigure } from "../../shared/figures/groundPower.ts";
import { startsLeftFigure } from "../../shared/figures/startsLeft.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { given } from "../spec/given.ts";
import { RICH } from "./rich.ts";
import { inputOf, numberIn, told } from "./told.ts";

const electrical = RICH.electrical as NonNullable<AircraftType["electrical"]>;

/** Returns a story on batteries whose volts at rest were read, on a day of 25 degC. */
function onBatteries(volts: number, type: AircraftType = RICH) {
  const story = given({ type, powerSource: "batteries" }).manned();
  story.air(25);
  story.say("cockpit", { type: "recordCheck", check: "battery", reading: { value: volts, unit: "V" } });
  return story;
}

describe("volts expected", () => {
  it("[FIG-3] two batteries of 25.2 V, 10 milliohms with their leads, 600 A: 19.20 V", () => {
    const figure = expectedVolts(onBatteries(25.2).state, 1);
    expect(numberIn(figure)).toBeCloseTo(19.2, 9);
    expect(told(figure).verdict).toBe("good");
    expect(inputOf(figure, "breakaway current").value).toBe(600);
    expect(inputOf(figure, "one, volts at rest").at).toBe(onBatteries(25.2).now);
  });

  it("[FIG-3] at its least volts it is good, below them it is not", () => {
    const least = (value: number) => ({
      ...RICH,
      electrical: { ...electrical, leastVolts: { ...electrical.leastVolts, value } },
    });
    expect(expectedVolts(onBatteries(25.2, least(19.19)).state, 1)?.verdict).toBe("good");
    expect(expectedVolts(onBatteries(25.2, least(19.21)).state, 1)?.verdict).toBe("bad");
  });

  it("[FIG-3] the temperature not read: the coldest row of ohms, and that is said", () => {
    const story = given({ type: RICH, powerSource: "batteries" }).manned();
    story.say("cockpit", { type: "recordCheck", check: "battery", reading: { value: 25.2, unit: "V" } });
    const figure = expectedVolts(story.state, 1);
    // 20 milliohms each, 10 together, 5 of leads: 25.2 - 600 x 0.015.
    expect(numberIn(figure)).toBeCloseTo(16.2, 9);
    expect(figure?.caution).toMatch(/temperature has not been read/);
  });

  it("[FIG-3] on ground power the cart and its cable: AC 43.13-1B, 0000, 60 ft, 600 A, 2.16 V", () => {
    const story = given({ type: RICH }).manned().upTo("groundPower");
    story.power(28);
    expect(numberIn(expectedVolts(story.state, 1))).toBeCloseTo(28 - 2.16, 9);
    expect(expectedVolts(story.state, 1)?.caution).toMatch(/stiff/);
  });

  it("[FIG-2] volts of no rested battery give no figure and no verdict", () => {
    const figure = expectedVolts(onBatteries(29).state, 1);
    expect([figure?.value, figure?.verdict]).toEqual([null, "unknown"]);
    expect(figure?.caution).toMatch(/specific gravity/);
  });
});

describe("volts seen", () => {
  const cranked = (volts: number) => {
    const story = given({ type: RICH }).manned().upTo("starting");
    story.cranking(3);
    story.volts(volts);
    return seenVolts(story.state, 3);
  };

  it("[FIG-4] beside the expected, with the difference", () => {
    const figure = cranked(25);
    expect([figure?.value, figure?.verdict]).toEqual([25, "good"]);
    expect(inputOf(figure, "difference").value).toBeCloseTo(25 - (28 - 2.16), 9);
  });

  it("[FIG-4] far from the expected it is to be looked into, below the least it is not good", () => {
    expect(cranked(23)?.verdict).toBe("caution");
    expect(cranked(23)?.caution).toMatch(/plug, cable/);
    expect(cranked(13.9)?.verdict).toBe("bad");
  });

  it("[FIG-4] compares with what was expected as the starter was engaged, whatever the source is since", () => {
    const story = given({ type: RICH }).manned().upTo("starting");
    story.cranking(3);
    story.volts(25);
    const cranking = story.log.find((e) => e.fact.type === "sent" && e.fact.kind === "cranking");
    expect(cranking?.fact).toMatchObject({ expectedVolts: 28 - 2.16 });
    // The cart's volts are read again, lower, after the crank: the expected volts stay as they were.
    story.send("cockpit", "caught", { engine: 3 });
    story.power(26.5);
    expect(numberIn(expectedVolts(story.state, 3))).toBeCloseTo(26.5 - 2.16, 9);
    expect(inputOf(seenVolts(story.state, 3), "volts expected").value).toBeCloseTo(28 - 2.16, 9);
    expect(seenVolts(story.state, 3)?.detail).toBe("0.8 V below what was expected");
  });

  it("[FIG-4] no reading, no figure", () => {
    expect(seenVolts(given({ type: RICH }).manned().state, 3)).toBeNull();
  });
});

describe("starts left", () => {
  const alone: AircraftType = {
    ...RICH,
    electrical: {
      ...electrical,
      batteries: electrical.batteries?.slice(0, 1) ?? [],
      starter: {
        ...electrical.starter,
        steady: { ...electrical.starter.steady, value: 300 },
        breakaway: { ...electrical.starter.breakaway, value: 300 },
      },
      leastVolts: { ...electrical.leastVolts, value: 10 },
    },
  };

  it("[FIG-10] 36 Ah, charge 0.8, floor 0.2, 300 A for 15 s, exponent 1.15: 12 starts", () => {
    // Charge 0.8 is gravity 1.248, which shows 12 (1.248 + 0.84) volts at rest.
    const figure = startsLeftFigure(onBatteries(25.056, alone).state);
    expect([figure?.value, figure?.verdict]).toEqual([12, "good"]);
  });

  it("[FIG-10] the volts end it before the charge does", () => {
    const high = {
      ...alone,
      electrical: { ...alone.electrical, leastVolts: { ...electrical.leastVolts, value: 20.5 } },
    } as AircraftType;
    // First start: 25.056 - 300 x 0.015 = 20.556; each next one is lower by 12 x 0.16 x 1.718 / 36 = 0.0916.
    expect(startsLeftFigure(onBatteries(25.056, high).state)?.value).toBe(1);
  });

  it("[FIG-10] fewer than engines is to be looked at, none is not good", () => {
    const empty = startsLeftFigure(onBatteries(24, alone).state);
    expect([empty?.value, empty?.verdict]).toEqual([1, "caution"]);
    expect(startsLeftFigure(onBatteries(24 - 0.7, alone).state)?.verdict).toBe("bad");
  });
});

describe("starts left in the cold", () => {
  const at = (degC: number, type: AircraftType = RICH) => {
    const story = onBatteries(25.2, type);
    story.air(degC);
    return story.state;
  };

  it("[FIG-10, FIG-3] are none where the volts expected as a starter breaks away are below the least", () => {
    const high = {
      ...RICH,
      electrical: { ...electrical, leastVolts: { ...electrical.leastVolts, value: 17 } },
    };
    for (const degC of [-20, -15, -10, 0, 10, 20, 25]) {
      const expected = expectedVolts(at(degC, high), 1);
      const left = startsLeftFigure(at(degC, high));
      expect([degC, left?.value === 0]).toEqual([degC, expected?.verdict === "bad"]);
    }
  });

  it("[FIG-10] never grow as it gets colder", () => {
    const counts = [25, 10, 0, -10, -20].map((degC) => Number(startsLeftFigure(at(degC))?.value));
    expect(counts).toEqual([...counts].sort((a, b) => b - a));
    expect(counts[0]).toBeGreaterThan(counts[4] ?? 0);
  });

  it("[FIG-2, FIG-10] are unknown where the type does not say what cold takes", () => {
    const silent = {
      ...RICH,
      electrical: {
        ...electrical,
        batteries: electrical.batteries?.map(({ capacityAt: _, ...b }) => b) ?? [],
      },
    };
    const left = startsLeftFigure(at(20, silent));
    expect([left?.value, left?.verdict]).toEqual([null, "unknown"]);
    expect(left?.caution).toMatch(/gives in the cold/);
  });

  it("[FIG-2, MOD-6] are unknown by volts read while power was on: they are not volts at rest", () => {
    const story = given({ type: RICH }).manned().upTo("groundPower");
    story.air(25);
    story.power(28);
    story.say("cockpit", { type: "recordCheck", check: "battery", reading: { value: 25.2, unit: "V" } });
    expect(story.state.checks.battery?.loaded).toBe(true);
    expect(startsLeftFigure(story.state)?.value).toBeNull();
    expect(startsLeftFigure(story.state)?.caution).toMatch(/under load/);
  });
});

describe("cart", () => {
  it("[FIG-13] cable 0000, 60 ft, 400 A loses 1.44 V (AC 43.13-1B Table 11-9)", () => {
    const figure = cableDrop(given({ type: RICH }).state);
    expect(numberIn(figure)).toBeCloseTo(1.44, 9);
    expect(figure?.verdict).toBe("good");
  });

  it("[FIG-14] is judged by the steady band, and by the starting band while an engine cranks", () => {
    const story = given({ type: RICH }).manned().upTo("starting");
    expect(groundPowerFigure(story.state)).toMatchObject({
      words: "groundPower",
      value: 28,
      verdict: "good",
    });
    story.cranking(3);
    story.volts(20);
    expect(groundPowerFigure(story.state)).toMatchObject({
      words: "groundPowerStarting",
      value: 20,
      verdict: "good",
    });
    story.volts(11.9);
    expect(groundPowerFigure(story.state)?.verdict).toBe("bad");
  });
});
