import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  AS_READ,
  choiceFrom,
  chosenUnit,
  differenceInChosen,
  inChosen,
  UNIT_FAMILIES,
  type UnitChoice,
} from "../../shared/models/unitChoice.ts";
import { convert } from "../../shared/models/units.ts";
import { UNITS, type Unit } from "../../shared/protocol/quantity.ts";
import { say } from "../../shared/words/en.ts";
import { foundWords } from "../../shared/words/foundFigure.ts";
import { outcomesOf } from "../../shared/words/outcomes.ts";
import { inputWords, workedOut, written, writtenBoth } from "../../shared/words/quantity.ts";
import { must } from "./must.ts";

const METRIC: UnitChoice = {
  pressure: "kPa",
  airPressure: "hPa",
  temperature: "degC",
  volume: "L",
  mass: "kg",
};
const CUSTOMARY: UnitChoice = {
  pressure: "psi",
  airPressure: "inHg",
  temperature: "degF",
  volume: "USgal",
  mass: "lb",
};

const families = Object.values(UNIT_FAMILIES) as readonly (readonly Unit[])[];
const families2 = Object.entries(UNIT_FAMILIES) as [keyof UnitChoice, readonly Unit[]][];
/** A unit of a reading, and another unit of its family as the choice. */
const pairs = families2.flatMap(([family, units]) =>
  units.flatMap((unit) =>
    units.filter((to) => to !== unit).map((to) => ({ unit, to, choice: { [family]: to } })),
  ),
);
const pair = fc.constantFrom(...pairs);
/** Steps that instruments have. */
const stepped = fc
  .tuple(fc.constantFrom(0.01, 0.05, 0.1, 0.5, 1, 2, 5, 10), fc.integer({ min: 0, max: 4000 }))
  .map(([step, n]) => ({ step, value: Number((n * step).toFixed(2)) }));

describe("the unit chosen", () => {
  // NIST SP 811 (2008) appendix B.8: psi 6.894 757 kPa, inHg (conventional) 3.386 389 kPa, lb 0.453 592 37 kg,
  // US gallon 3.785 412 L; degrees by their definitions.
  it.each([
    [45, "psi", METRIC, "310 kPa (45 psi)"],
    [3000, "psi", METRIC, "20684 kPa (3000 psi)"],
    [45, "psi", { pressure: "bar" }, "3.10 bar (45 psi)"],
    [29.92, "inHg", METRIC, "1013.2 hPa (29.92 inHg)"],
    [1013, "hPa", CUSTOMARY, "29.91 inHg (1013 hPa)"],
    [-40, "degC", CUSTOMARY, "-40 °F (-40 °C)"],
    [104, "degF", METRIC, "40.0 °C (104 °F)"],
    [120, "USgal", METRIC, "454 L (120 US gal)"],
    [1000, "lb", METRIC, "453.6 kg (1000 lb)"],
  ] as const)("[UNI-1, UNI-3] %d %s is written %j: %s", (value, unit, choice, text) => {
    expect(writtenBoth({ value, unit }, choice)).toBe(text);
  });

  it("[UNI-1] keeps figures without a choice, and figures that have no other unit", () => {
    expect(writtenBoth({ value: 45, unit: "psi" }, AS_READ)).toBe("45 psi");
    expect(writtenBoth({ value: 45, unit: "psi" }, CUSTOMARY)).toBe("45 psi");
    const chosen = families.flat();
    for (const unit of UNITS.filter((u) => !chosen.includes(u)))
      for (const choice of [METRIC, CUSTOMARY]) expect(chosenUnit(unit, choice)).toBe(unit);
    // The choice of kilopascals for oil does not change the altimeter setting.
    expect(writtenBoth({ value: 29.92, unit: "inHg" }, { pressure: "kPa" })).toBe("29.92 inHg");
  });

  it("[UNI-1] converts to another unit and back to the last significant digit, in every family", () => {
    fc.assert(
      fc.property(pair, fc.double({ min: -273, max: 1e5, noNaN: true }), ({ unit, to, choice }, value) => {
        const shown = inChosen({ value, unit }, choice);
        expect(shown.unit).toBe(to);
        const back = must(convert(shown, unit)).value;
        expect(Math.abs(back - value)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(value)));
      }),
      { seed: 4 },
    );
  });

  it("[UNI-2] writes a figure that converts back into the reading, to its own step", () => {
    fc.assert(
      fc.property(pair, stepped, fc.boolean(), ({ unit, to, choice }, { step, value }, told) => {
        const text = written({ value, unit }, choice, told ? { step } : {});
        const back = must(convert({ value: Number.parseFloat(text), unit: to }, unit)).value;
        // Without the instrument's step, the last decimal is the step.
        const decimals = told ? 2 : (String(value).split(".")[1] ?? "").length;
        const fine = told ? step : 10 ** -decimals;
        expect(Number((Math.round(back / fine) * fine).toFixed(decimals))).toBe(value);
      }),
      { seed: 4, numRuns: 1000 },
    );
  });

  it("[UNI-4] a rise of 20 K in Celsius is one of 36 in Fahrenheit, not 68", () => {
    expect(differenceInChosen({ value: 20, unit: "degC" }, CUSTOMARY).value).toBeCloseTo(36, 9);
    expect(writtenBoth({ value: 20, unit: "degC" }, CUSTOMARY, { difference: true })).toBe("36 °F (20 °C)");
    expect(inputWords(20, "degC", CUSTOMARY, true)).toBe("36 °F (20 °C)");
    expect(written({ value: 36, unit: "degF" }, METRIC, { difference: true })).toBe("20.0 °C");
  });

  it("[UNI-4] differences of two readings and the readings agree", () => {
    fc.assert(
      fc.property(
        pair,
        fc.double({ min: 0, max: 500, noNaN: true }),
        fc.double({ min: 0, max: 500, noNaN: true }),
        ({ unit, choice }, a, b) => {
          const apart = differenceInChosen({ value: b - a, unit }, choice).value;
          const each =
            inChosen({ value: b, unit }, choice).value - inChosen({ value: a, unit }, choice).value;
          expect(apart).toBeCloseTo(each, 6);
        },
      ),
      { seed: 4 },
    );
  });

  it("[UNI-3] figures worked out are written the same way, a dash for none", () => {
    expect(inputWords(-27.4212, "degC", CUSTOMARY)).toBe("-17.4 °F (-27.4 °C)");
    // A reading is not rounded.
    expect(inputWords(28.35, "V", CUSTOMARY)).toBe("28.35 V");
    expect(inputWords(1.276, "count", CUSTOMARY)).toBe("1.276");
    expect(inputWords(29.92, "inHg", METRIC)).toBe("1013.2 hPa (29.92 inHg)");
    expect(workedOut(null, "degC", CUSTOMARY)).toBe("–");
    expect(workedOut("2, 3", null, CUSTOMARY)).toBe("2, 3");
    expect(workedOut(-0.001, "V")).toBe("0.00 V");
    // A hydrometer's points are thousandths.
    expect(workedOut(1.2264, "count")).toBe("1.226");
    expect(workedOut(7, "count")).toBe("7");
  });

  it("[UNI-3] figures in findings and refusals are written the same way", () => {
    const asRead = outcomesOf(say).refusal({ reason: "outOfRange", found: "0 to 200 psi" });
    expect(asRead).toContain("0 to 200 psi");
    expect(outcomesOf(say).refusal({ reason: "outOfRange", found: "0 to 200 psi" }, METRIC)).toContain(
      "0 to 1379 kPa (0 to 200 psi)",
    );
    expect(foundWords("599.9 psi", METRIC)).toBe("4136.2 kPa (599.9 psi)");
    for (const other of ["off", "distance unknown", "5 mi", "METAR: no wind", "1, 2, 3", "12"])
      expect(foundWords(other, METRIC)).toBe(other);
  });

  it("[UNI-5] drops each invalid part of a stored choice", () => {
    expect(choiceFrom(METRIC)).toEqual(METRIC);
    expect(choiceFrom({ pressure: "degC", temperature: "degF", speed: "kt", mass: 3 })).toEqual({
      temperature: "degF",
    });
    for (const none of [null, 7, "psi", undefined, []]) expect(choiceFrom(none)).toEqual(AS_READ);
  });

  it("[UNI-5] a quantity whose unit this version does not know is written as it is", () => {
    expect(writtenBoth({ value: 3, unit: "furlong" }, METRIC)).toBe("3 furlong");
  });
});
