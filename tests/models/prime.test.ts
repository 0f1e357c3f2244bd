import { describe, expect, it } from "vitest";
import { primeFor } from "../../shared/models/prime.ts";
import type { PrimeRules } from "../../shared/types/prime.ts";

const source = { basis: "invented", text: "for tests" } as const;
const s = (value: number) => ({ value, unit: "s", source }) as const;
const degC = (value: number) => ({ value, unit: "degC", source }) as const;

/**
 * Amounts as published: flicks of about 1 s, two to four (A.P. 2445D), nothing for a warm engine after a short stop
 * (airline operations 1946, 3033-17). That the cold asks for more is FAA P-8740-13; ten seconds is from memory.
 */
const RULES: PrimeRules = {
  amount: s(2),
  colder: [
    { upTo: degC(-10), amount: s(10) },
    { upTo: degC(10), amount: s(4) },
  ],
  hot: { within: { value: 30, unit: "min", source }, amount: s(0) },
};
const amountAt = (value: number | null, sinceRanMs: number | null = null) => {
  const temperature = value === null ? null : ({ value, unit: "degC" } as const);
  const prime = primeFor(RULES, temperature, sinceRanMs);
  return prime.ok ? prime.value.amount.value : prime.why;
};
const MIN = 60_000;

describe("prime", () => {
  it("[FIG-20] takes the first band that reaches the temperature, its end included, in any unit", () => {
    expect([-30, -10, -9.9, 10, 10.1, 25].map((t) => amountAt(t))).toEqual([10, 10, 4, 4, 2, 2]);
    const inF = primeFor(RULES, { value: 14, unit: "degF" }, null);
    expect(inF.ok && inF.value.amount.value).toBe(10);
  });

  it("[FIG-20] a hot engine takes the hot amount, to the end of its time, with or without a temperature", () => {
    expect(amountAt(-30, 30 * MIN)).toBe(0);
    expect(amountAt(null, 0)).toBe(0);
    expect(amountAt(-30, 30 * MIN + 1)).toBe(10);
  });

  it("[FIG-20] without a temperature, or with a time that is none, there is no amount", () => {
    expect(amountAt(null)).toMatch(/has not been read/);
    expect(amountAt(null, 31 * MIN)).toMatch(/has not been read/);
    expect(amountAt(20, -1)).toMatch(/0 or more/);
    expect(amountAt(20, Number.NaN)).toMatch(/0 or more/);
    expect(amountAt(Number.NaN)).toEqual(expect.any(String));
  });
});
