import { describe, expect, it } from "vitest";
import { carburettorIcing, relativeHumidity } from "../../shared/models/weather/carburettorIcing.ts";

const risk = (t: number, td: number) => {
  const found = carburettorIcing(t, td);
  return found.ok ? found.value : found.why;
};
const fromF = (degF: number) => (degF - 32) * (5 / 9);
/** Dew point of air with this humidity, by the same US NWS form solved for it. */
const dewPoint = (t: number, percent: number) => {
  const log = (7.5 * t) / (237.7 + t) + Math.log10(percent / 100);
  return Math.min(t, (237.7 * log) / (7.5 - log));
};

describe("carburettor ice", () => {
  it("[FIG-21] the points printed from the authorities' charts: serious at descent power at 22/5 and 26/19", () => {
    expect(risk(22, 5)).toBe("likely");
    expect(risk(26, 19)).toBe("likely");
  });

  it("[FIG-21] the field that DOI Safety Alert 11-01 calls severe: 50 to 70 degF above 60 %", () => {
    for (let f = 50; f <= 70; f += 1)
      for (const percent of [60.1, 80, 100])
        expect(risk(fromF(f), dewPoint(fromF(f), percent))).toBe("likely");
  });

  it("[FIG-21] the same alert: possible at 100 degF and 50 %, rare below 25 % and well below freezing", () => {
    expect(risk(fromF(99.9), dewPoint(fromF(99.9), 50))).toBe("possible");
    expect(risk(15, dewPoint(15, 24))).toBe("unlikely");
    expect(risk(-25, -25)).toBe("unlikely");
    expect(risk(-5, -6)).toBe("possible");
  });

  it("[FIG-21] humidity as the WMO's Magnus form gives it (WMO-No. 8), within half a percent", () => {
    const e = (t: number) => 6.112 * Math.exp((17.62 * t) / (243.12 + t));
    for (const [t, td] of [
      [22, 5],
      [26, 19],
      [0, -4],
      [35, 10],
    ] as const) {
      const humidity = relativeHumidity(t, td);
      expect(humidity.ok && Math.abs(humidity.value - (100 * e(td)) / e(t))).toBeLessThan(0.5);
    }
  });

  it("[FIG-21] refuses a dew point above the temperature and what is no temperature", () => {
    expect(risk(10, 11)).toMatch(/above/);
    expect(risk(Number.NaN, 5)).toMatch(/needed/);
    expect(risk(10, Number.NEGATIVE_INFINITY)).toMatch(/needed/);
  });
});
