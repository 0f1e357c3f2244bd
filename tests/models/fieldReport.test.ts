import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { AS_READ } from "../../shared/models/unitChoice.ts";
import { readFieldReport } from "../../shared/models/weather/fieldReport.ts";
import { faultCode, faultOf, REPORT_PARTS } from "../../shared/models/weather/reportFault.ts";
import { say } from "../../shared/words/en.ts";
import { outcomesOf } from "../../shared/words/outcomes.ts";

const HOUR = 3_600_000;
const at = (month: number, day: number, hour: number, minute: number) =>
  Date.UTC(2026, month - 1, day, hour, minute);
const read = (text: string, now: number, most = HOUR) => readFieldReport(text, now, most);
const stamp = (ms: number) => {
  const iso = new Date(ms).toISOString();
  return `${iso.slice(8, 10)}${iso.slice(11, 13)}${iso.slice(14, 16)}Z`;
};

describe("a pasted report", () => {
  // FMH-1 chapter 12's example of a report, from memory.
  it("[WEA-4] gives wind, gust, direction, temperature, dew point and QNH, and when it was observed", () => {
    const text =
      "METAR KABC 121755Z AUTO 21016G24KT 180V240 1SM R11/P6000FT -RA BR BKN015 OVC025 06/04 A2990 RMK AO2";
    expect(read(text, at(3, 12, 18, 5))).toEqual({
      ok: true,
      value: {
        station: "KABC",
        observedAt: at(3, 12, 17, 55),
        windKt: 16,
        gustKt: 24,
        fromDeg: 210,
        swing: [180, 240],
        temperatureC: 6,
        dewPointC: 4,
        // 29.90 inHg.
        qnhHpa: 1012.5,
        thunder: false,
      },
    });
  });

  it("[WEA-2] names no month, so its time is the last such day, also across the end of a short month", () => {
    const observed = (text: string, now: number) => {
      const got = read(text, now, 90 * 24 * HOUR);
      return got.ok ? got.value.observedAt : got.fault;
    };
    expect(observed("KABC 312355Z 21016KT 06/04 A2990", at(6, 1, 0, 10))).toBe(at(5, 31, 23, 55));
    expect(observed("KABC 301155Z 21016KT 06/04 A2990", at(3, 1, 0, 10))).toBe(at(1, 30, 11, 55));
    expect(observed("KABC 321155Z 21016KT 06/04 A2990", at(3, 1, 0, 10))).toEqual({ is: "unreadable" });
  });

  it("[WEA-2] stamped a few minutes ahead counts as of now; farther ahead it is last month's", () => {
    const now = at(6, 1, 9, 0);
    const got = (text: string) => read(text, now);
    expect(got("KABC 010910Z 21016KT 06/04 A2990")).toMatchObject({ ok: true, value: { observedAt: now } });
    expect(got("KABC 010911Z 21016KT 06/04 A2990")).toMatchObject({ ok: false, fault: { is: "old" } });
  });

  it("[WEA-2] is taken before its age limit and refused at it, to the millisecond, at any date", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: at(1, 1, 0, 0) / 60_000, max: at(12, 31, 23, 59) / 60_000 }),
        fc.integer({ min: 1, max: 6 * 60 }),
        (minute, limit) => {
          const observed = minute * 60_000;
          const text = `EGLL ${stamp(observed)} 24008KT 9999 12/07 Q1013`;
          const most = limit * 60_000;
          expect(read(text, observed + most - 1, most)).toMatchObject({
            ok: true,
            value: { observedAt: observed },
          });
          const fault = { is: "old", age: most, most };
          expect(read(text, observed + most, most)).toEqual({ ok: false, fault });
        },
      ),
      { seed: 4 },
    );
  });

  it("[WEA-3, WEA-4] keeps each fault in the refusal, with what to do", () => {
    const faults = [
      { is: "unreadable" },
      { is: "old", age: 67 * 60_000, most: HOUR },
      { is: "twice", part: "observed" },
      ...REPORT_PARTS.map((part) => ({ is: "twice", part }) as const),
      ...REPORT_PARTS.map((part) => ({ is: "impossible", part, value: -12.5 }) as const),
    ] as const;
    for (const fault of faults) {
      expect(faultOf(faultCode(fault))).toEqual(fault);
      const words = outcomesOf(say).reportFault(fault, AS_READ);
      expect(words).toMatch(/Paste|by hand/);
      expect(outcomesOf(say).refusal({ reason: "badReport", found: faultCode(fault) })).toBe(
        `That weather report is not accepted. ${words}`,
      );
    }
    expect(
      outcomesOf(say).reportFault(
        { is: "impossible", part: "temperature", value: 61 },
        { temperature: "degF" },
      ),
    ).toContain("142 °F (61 °C)");
    expect(faultOf("something else")).toEqual({ is: "unreadable" });
  });

  it("[WEA-3] never throws, whatever is pasted", () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 60 }), (noise) => {
        read(noise, at(6, 1, 9, 0));
        read(`EGLL 010850Z ${noise}`, at(6, 1, 9, 0));
      }),
      { seed: 4, numRuns: 300 },
    );
  });
});
