import { expect, it } from "vitest";
import { dayAndMinute, dayAndTime, dayWords, timeOfDay } from "../../shared/words/dates.ts";

// The forms are those of Unicode's CLDR for en-GB and es, as Intl has them.
const AT = Date.UTC(2026, 8, 6, 0, 5, 9);

it("[LNG-10] days are written as the language writes them, the month in letters, by a clock of 24 hours in UTC", () => {
  expect([dayWords(AT, "en"), dayWords(AT, "es")]).toEqual(["6 Sept 2026", "6 sept 2026"]);
  expect(dayAndMinute(AT, "en")).toBe("6 Sept 2026, 00:05");
  expect(dayAndMinute(AT, "es")).toBe("6 sept 2026, 00:05");
  expect(dayAndTime(AT, "es")).toBe("6 sept 2026, 00:05:09");
  expect(timeOfDay(AT)).toBe("00:05:09");
  expect(timeOfDay(AT + 23 * 3_600_000)).toBe("23:05:09");
});
