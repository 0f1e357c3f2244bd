import fc from "fast-check";
import psychrolib from "psychrolib";
import { describe, expect, it } from "vitest";
import {
  densityAltitudeByRuleFt,
  densityAltitudeDryFt,
  densityAltitudeFt,
  densityAltitudeMoistFt,
  isaTemperatureByRuleC,
  pressureAltitudeByRuleFt,
  pressureAltitudeFt,
  stationPressureHpa,
} from "../../shared/models/weather/altitude.ts";
import { isa } from "../../shared/models/weather/isa.ts";
import { must } from "./must.ts";

psychrolib.SetUnitSystem(psychrolib.SI);
const FOOT = 0.3048;
const INHG_PA = 3386.389;

describe("standard atmosphere (ISO 2533:1975)", () => {
  // Rows by the standard's equations; they match its tables (from memory).
  it.each([
    [-500, 291.4, 107477.5, 1.284891, 342.208],
    [0, 288.15, 101325.0, 1.225, 340.294],
    [500, 284.9, 95460.8, 1.167269, 338.369],
    [1000, 281.65, 89874.6, 1.111643, 336.434],
    [1500, 278.4, 84556.0, 1.058067, 334.487],
    [2000, 275.15, 79495.2, 1.00649, 332.529],
    [3000, 268.65, 70108.5, 0.909122, 328.578],
    [5000, 255.65, 54019.9, 0.736116, 320.529],
    [11000, 216.65, 22632.0, 0.363918, 295.069],
    [15000, 216.65, 12044.6, 0.193673, 295.069],
  ])("[MOD-60] %d m", (height, temperature, pressure, density, sound) => {
    const air = must(isa(height));
    expect(air.temperatureK).toBeCloseTo(temperature, 3);
    expect(Math.abs(air.pressurePa - pressure)).toBeLessThanOrEqual(0.06);
    expect(air.densityKgM3).toBeCloseTo(density, 6);
    expect(air.soundMs).toBeCloseTo(sound, 3);
  });

  it.each([
    [1000, 28.856],
    [2000, 27.821],
    [3000, 26.817],
    [5000, 24.896],
    [10000, 20.577],
  ])("[MOD-60] %d ft has %d inHg (handbooks print it to two places)", (feet, inHg) => {
    expect(must(isa(feet * FOOT)).pressurePa / INHG_PA).toBeCloseTo(inHg, 3);
  });

  it("[MOD-60] agrees with psychrolib's standard atmosphere to 3 in a million up to 5000 m", () => {
    fc.assert(
      fc.property(fc.double({ min: -1000, max: 5000, noNaN: true }), (height) => {
        const air = must(isa(height));
        expect(Math.abs(air.pressurePa / psychrolib.GetStandardAtmPressure(height) - 1)).toBeLessThan(3e-6);
        expect(air.temperatureK).toBeCloseTo(psychrolib.GetStandardAtmTemperature(height) + 273.15, 6);
      }),
      { seed: 60 },
    );
  });

  it("[MOD-60] pressure falls with height without a step at 11 km; outside its range it is refused", () => {
    fc.assert(
      fc.property(fc.double({ min: -2000, max: 19_999, noNaN: true }), (height) => {
        expect(must(isa(height + 1)).pressurePa).toBeLessThan(must(isa(height)).pressurePa);
      }),
      { seed: 61 },
    );
    expect(must(isa(11_000.001)).pressurePa).toBeCloseTo(must(isa(10_999.999)).pressurePa, 1);
    for (const height of [-2001, 20_001, Number.NaN]) expect(isa(height).ok).toBe(false);
  });
});

describe("pressure altitude", () => {
  // US NWS form, from memory; its own values.
  it.each([
    [1013.25, 0],
    [900, 3241.8],
    [850, 4779.2],
    [1030, -454.2],
  ])("[MOD-61] %d hPa", (hPa, feet) => {
    expect(pressureAltitudeFt(hPa)).toBeCloseTo(feet, 1);
  });

  it("[MOD-61] is the inverse of ISA, and with an altimeter setting of 1013.25 the station pressure is ISA's", () => {
    fc.assert(
      fc.property(fc.double({ min: -300, max: 4000, noNaN: true }), (metres) => {
        const hPa = must(isa(metres)).pressurePa / 100;
        expect(Math.abs(pressureAltitudeFt(hPa) - metres / FOOT)).toBeLessThan(2 + Math.abs(metres) / 500);
        expect(stationPressureHpa(1013.25, metres)).toBeCloseTo(hPa, 6);
        expect(stationPressureHpa(1030, 0)).toBeCloseTo(1030, 9);
      }),
      { seed: 62 },
    );
  });

  it("[MOD-61] cockpit rule: field 5000 ft, 29.45 inHg gives 5470 ft", () => {
    expect(pressureAltitudeByRuleFt(5000, 29.45)).toBeCloseTo(5470, 6);
  });
});

describe("density altitude", () => {
  // US NWS's form, rounded to 100 ft as the NWS publishes it.
  it.each([
    [24.9, 90, 8048.3, 8000],
    [29.92, 90, 1988.6, 2000],
    [29.92, -20, -5740.0, -5700],
    // At standard sea level the form gives 18 ft, not 0; its own rounding hides that.
    [29.92, 59, 18.2, 0],
  ])("[MOD-61] dry: %d inHg and %d degF", (inHg, degF, feet, reported) => {
    expect(densityAltitudeDryFt(inHg, degF)).toBeCloseTo(feet, 1);
    expect(Math.round(densityAltitudeDryFt(inHg, degF) / 100) * 100).toBe(reported);
  });

  it("[MOD-61] moist: NWS page's form (offset 459.69, 145366) at 24.90 inHg, 32.2 and 10 degC", () => {
    const moist = densityAltitudeMoistFt(24.9, 32.2, 10);
    expect(moist.vapourHpa).toBeCloseTo(12.2695, 4);
    expect(moist.virtualK).toBeCloseTo(307.0388, 2);
    expect(moist.feet).toBeCloseTo(8220.8, -0.5);
  });

  it("[MOD-61] moist air is as thin as psychrolib says: the same density as dry standard air at that height", () => {
    const pa = 24.9 * INHG_PA;
    const ratio = psychrolib.GetHumRatioFromTDewPoint(10, pa);
    const density = psychrolib.GetMoistAirDensity(32.2, ratio, pa);
    const standard = must(isa(densityAltitudeMoistFt(24.9, 32.2, 10).feet * FOOT)).densityKgM3;
    // Psychrolib counts the water's mass with that of the dry air, so the comparison holds to one part in a thousand.
    expect(Math.abs(density / standard - 1)).toBeLessThan(2e-3);
  });

  it("[MOD-61] gives 9000 ft for 0.001812 slug per cubic foot (published with the exact form)", () => {
    const slug = must(isa(9000 * FOOT)).densityKgM3 / 515.3788;
    // ISA's own equations give 0.0018111, which differs by one in the last printed place.
    expect(Math.abs(slug - 0.001812)).toBeLessThan(1e-6);
  });

  it("[MOD-61] cockpit rule: 120 ft for each degree gives 9070 ft; 118.8 with ISA at pressure altitude 9132.7", () => {
    expect(densityAltitudeByRuleFt(5470, 35, isaTemperatureByRuleC(5000), 120)).toBeCloseTo(9070, 6);
    expect(densityAltitudeByRuleFt(5470, 35, 15 - 0.00198 * 5470, 118.8)).toBeCloseTo(9132.7, 1);
  });

  it("[MOD-61] dry forms agree with each other and the rule stays near them", () => {
    const field = fc.tuple(
      fc.double({ min: 850, max: 1030, noNaN: true }),
      fc.double({ min: -20, max: 40, noNaN: true }),
    );
    fc.assert(
      fc.property(field, ([hPa, degC]) => {
        const exact = densityAltitudeFt(hPa, degC);
        expect(Math.abs(densityAltitudeDryFt(hPa / 33.86389, degC * 1.8 + 32) - exact)).toBeLessThan(30);
        const pa = pressureAltitudeFt(hPa);
        const rule = densityAltitudeByRuleFt(pa, degC, isaTemperatureByRuleC(pa), 118.8);
        // Near 3 % of the height above -20 000 ft, where the rule's line would end.
        expect(Math.abs(rule - exact)).toBeLessThan(0.03 * (exact + 20_000));
      }),
      { seed: 64 },
    );
  });
});
