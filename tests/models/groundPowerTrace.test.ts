import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { allowedAt, type Envelope } from "../../shared/models/electrical/envelope.ts";
import { judgeTrace, type VoltSample } from "../../shared/models/electrical/groundPowerTrace.ts";
import { must } from "./must.ts";

/** MIL-STD-704F 28 V d.c.: steady 22 to 29, starting 12 to 29, normal transient of its figure 13. From memory. */
const envelope: Envelope = {
  steady: { min: 22, max: 29 },
  starting: { min: 12, max: 29 },
  over: [
    [0, 50],
    [12.5, 50],
    [82.5, 29],
  ],
  under: [
    [0, 18],
    [15, 18],
    [100, 22],
  ],
  longestGap: 1000,
};

/** Returns samples from volts at moments. A jump takes a nanosecond. */
const trace = (...points: [ms: number, volts: number][]): VoltSample[] =>
  points.map(([ms, volts]) => ({ ms, volts }));
const JUMP = 1e-6;
const judge = (samples: VoltSample[], cranking: { from: number; to: number }[] = [], data = envelope) =>
  must(judgeTrace(samples, cranking, data));
/** Jumps at 100 ms from 28 V to `volts`, holds for `ms`, then jumps back. */
const pulse = (volts: number, ms: number) =>
  trace([0, 28], [100, 28], [100 + JUMP, volts], [100 + ms, volts], [100 + ms + JUMP, 28], [400, 28]);

describe("ground power against an envelope", () => {
  it("[MOD-16] the curve is straight between its points: 39.5 V at 47.5 ms (midpoint of 12.5 and 82.5)", () => {
    expect(allowedAt(envelope.over, 10)).toBe(50);
    expect(allowedAt(envelope.over, 12.5)).toBe(50);
    expect(allowedAt(envelope.over, 47.5)).toBe(39.5);
    expect(allowedAt(envelope.over, 82.5)).toBe(29);
    expect(allowedAt(envelope.over, 5000)).toBe(29);
    expect(allowedAt(envelope.under, 57.5)).toBe(20);
  });

  it.each([
    [29, 200, "within"],
    [29.1, 200, "left"],
    [22, 200, "within"],
    [21.9, 200, "left"],
    [50, 10, "within"],
    [50.1, 10, "left"],
    [50, 12.5, "within"],
    [50, 12.6, "left"],
    [39.5, 47.5, "within"],
    [39.6, 47.5, "left"],
    [39.5, 47.7, "left"],
    [18, 15, "within"],
    [17.9, 5, "left"],
    [18, 15.5, "left"],
    [20, 57.5, "within"],
    [20, 58, "left"],
  ] as const)("[MOD-16] %f V for %f ms is %s", (volts, ms, kind) => {
    expect(judge(pulse(volts, ms)).kind).toBe(kind);
  });

  it("[MOD-16] names the time, the side and the limit at which it left", () => {
    const over = judge(pulse(39.5, 60));
    expect(over).toMatchObject({ kind: "left", side: "over" });
    if (over.kind !== "left") throw new Error("not left");
    // A steady 39.5 V meets the falling curve 47.5 ms after the crossing at 100 ms.
    expect(over.at).toBeCloseTo(147.5, 4);
    expect(over.limit).toBeCloseTo(39.5, 6);
    expect(over.volts).toBeCloseTo(39.5, 6);
    expect(judge(pulse(51, 5))).toMatchObject({ kind: "left", side: "over" });
    expect(judge(pulse(10, 5))).toMatchObject({ kind: "left", side: "under" });
  });

  it("[MOD-16] a slow sag leaves the envelope 100 ms after the steady band, for any sampling", () => {
    // 1 V/s downward from 23 V: 22 V at 1000 ms; the curve is back at 22 V 100 ms later and the line just below.
    const sag = (every: number) =>
      Array.from({ length: 3000 / every + 1 }, (_, i) => ({ ms: i * every, volts: 23 - (i * every) / 1000 }));
    const moments = [20, 100, 300, 1000].map((every) => judge(sag(every)));
    for (const m of moments) {
      if (m.kind !== "left") throw new Error("not left");
      expect(m.side).toBe("under");
      // 22 − t/1000 = 18 + (t − 15)·4/85, t in ms since the crossing.
      expect(m.at - 1000).toBeCloseTo((4 + 60 / 85) / (4 / 85 + 0.001), 6);
    }
  });

  it("[MOD-16] a new excursion restarts its time; one that never comes back does not", () => {
    const twice = trace(
      [0, 28],
      [1, 40],
      [40, 40],
      [41, 28],
      [60, 28],
      [61, 40],
      [100, 40],
      [101, 28],
      [200, 28],
    );
    expect(judge(twice).kind).toBe("within");
    const touched = trace([0, 28], [1, 40], [40, 40], [41, 29], [42, 40], [80, 40], [81, 28], [200, 28]);
    expect(judge(touched).kind).toBe("within");
    const once = trace(
      [0, 28],
      [1, 40],
      [40, 40],
      [41, 30],
      [60, 30],
      [61, 40],
      [100, 40],
      [101, 28],
      [200, 28],
    );
    expect(judge(once).kind).toBe("left");
  });

  it("[MOD-17] the starting band applies while cranking: 14 V is within, 11.9 V is outside, and 14 V before or after is outside", () => {
    const dip = (volts: number) =>
      trace([0, 28], [500, 28], [501, volts], [900, volts], [950, 25], [1500, 27]);
    const cranking = [{ from: 500, to: 950 }];
    expect(judge(dip(14), cranking).kind).toBe("within");
    expect(judge(dip(12), cranking).kind).toBe("within");
    const low = judge(dip(11.9), cranking);
    expect(low).toMatchObject({ kind: "left", side: "under", limit: 12 });
    expect(judge(dip(14)).kind).toBe("left");
    expect(judge(dip(14), [{ from: 600, to: 950 }]).kind).toBe("left");
    const after = judge(dip(14), [{ from: 500, to: 880 }]);
    expect(after.kind === "left" && after.at).toBe(880);
  });

  it("[MOD-17] no over-voltage transient is allowed while cranking", () => {
    const spike = trace([0, 28], [500, 28], [501, 35], [505, 28], [900, 28]);
    expect(judge(spike).kind).toBe("within");
    expect(judge(spike, [{ from: 400, to: 800 }])).toMatchObject({ kind: "left", side: "over", limit: 29 });
  });

  it("[MOD-18] reversed polarity is named before anything else, with its time", () => {
    expect(judge(trace([0, -27.5], [100, -27.5]))).toEqual({ kind: "reversed", at: 0, volts: -27.5 });
    expect(judge(trace([0, 0], [100, 0], [200, -20], [300, -28]))).toEqual({
      kind: "reversed",
      at: 200,
      volts: -20,
    });
    expect(judge(trace([0, -0.2], [100, -0.2])).kind).toBe("left");
  });

  it("[MOD-18] a meter of 20 samples a second is judged whatever its start, its jitter and its print", () => {
    const twenty = { ...envelope, longestGap: 50 };
    for (let i = 0; i < 200; i += 1) {
      // Begun at any part of a second; printed to hundredths, thousandths or tenths of a thousandth of a second.
      const digits = 2 + (i % 3);
      const printed = (k: number) => Number((i * 0.00137 + k * 0.05).toFixed(digits)) * 1000;
      const log = Array.from({ length: 60 }, (_, k) => ({ ms: printed(k), volts: 28 }));
      expect(judgeTrace(log, [], twenty)).toEqual({ ok: true, value: { kind: "within" } });
    }
  });

  it("[MOD-18] a lost sample is a gap, however coarse the print", () => {
    const twenty = { ...envelope, longestGap: 50 };
    const lost = trace([0, 28], [50, 28], [150, 28]);
    expect(judgeTrace(lost, [], twenty).ok).toBe(false);
    expect(judgeTrace(trace([0, 28], [60, 28]), [], twenty).ok).toBe(true);
    // Printed to a millisecond.
    expect(judgeTrace(trace([0, 28], [51, 28]), [], twenty).ok).toBe(true);
    expect(judgeTrace(trace([0, 28], [52, 28]), [], twenty).ok).toBe(false);
    expect(judgeTrace(trace([0, 28], [70, 28]), [], twenty).ok).toBe(false);
  });

  it("[MOD-18, MOD-36] invalid samples get no verdict", () => {
    const refusal = (samples: VoltSample[], data = envelope) => {
      const got = judgeTrace(samples, [], data);
      return got.ok ? "" : got.why;
    };
    expect(refusal(trace([0, 28]))).toContain("two samples");
    expect(refusal(trace([0, 28], [0, 28]))).toContain("does not rise");
    expect(refusal(trace([0, 28], [2000, 28]))).toContain("nothing is known between 0 and 2000 ms");
    expect(refusal(trace([0, 28], [10, 280]))).toContain("outside");
    expect(refusal(trace([0, 28], [10, Number.NaN]))).toContain("outside");
    expect(refusal(trace([0, 28], [Number.NaN, 28]))).toContain("does not rise");
    expect(refusal(trace([0, 28], [9, 28]), { ...envelope, over: [[0, 50]] })).toContain(
      "ends on the steady band",
    );
    expect(refusal(trace([0, 28], [9, 28]), { ...envelope, under: [[5, 18]] })).toContain("begins at 0");
    expect(refusal(trace([0, 28], [9, 28]), { ...envelope, steady: { min: 29, max: 22 } })).toContain(
      "lowest",
    );
    expect(
      refusal(trace([0, 28], [9, 28]), {
        ...envelope,
        over: [
          [0, 50],
          [80, 40],
          [12, 29],
        ],
      }),
    ).toContain("rise");
  });

  it("[MOD-16] a check in small time steps finds the same verdict and time (property)", () => {
    const volts = fc.array(fc.integer({ min: 16, max: 52 }), { minLength: 3, maxLength: 12 });
    fc.assert(
      fc.property(volts, fc.integer({ min: 2, max: 60 }), (values, every) => {
        const samples = [28, ...values].map((v, i) => ({ ms: i * every, volts: v }));
        const exact = judge(samples);
        const brute = walk(samples, 0.002);
        if (exact.kind === "left" && brute !== null) expect(Math.abs(brute - exact.at)).toBeLessThan(0.1);
        // The brute-force walk may miss an excursion shorter than its step, but never the reverse.
        if (brute !== null) expect(exact.kind).toBe("left");
        if (exact.kind === "within") expect(brute).toBeNull();
      }),
      { seed: 704, numRuns: 60 },
    );
  });

  it("[MOD-16] a narrower envelope never accepts more (property)", () => {
    const volts = fc.array(fc.integer({ min: 16, max: 52 }), { minLength: 3, maxLength: 12 });
    const narrow: Envelope = {
      ...envelope,
      over: [
        [0, 45],
        [10, 45],
        [50, 29],
      ],
      under: [
        [0, 20],
        [15, 20],
        [50, 22],
      ],
    };
    fc.assert(
      fc.property(volts, (values) => {
        const samples = [28, ...values].map((v, i) => ({ ms: i * 7, volts: v }));
        const [wide, tight] = [judge(samples), judge(samples, [], narrow)];
        if (tight.kind === "within") expect(wide.kind).toBe("within");
        if (wide.kind === "left" && tight.kind === "left")
          expect(tight.at).toBeLessThanOrEqual(wide.at + 1e-9);
      }),
      { seed: 705, numRuns: 300 },
    );
  });
});

/**
 * Returns the first moment out of limits by stepping along the trace, or null. Slow, and written independently of the
 * model.
 */
function walk(samples: readonly VoltSample[], step: number): number | null {
  let since: number | null = null;
  let high = false;
  let i = 0;
  for (let ms = 0; ms <= (samples.at(-1)?.ms ?? 0); ms += step) {
    while ((samples[i + 1]?.ms ?? Number.POSITIVE_INFINITY) < ms) i += 1;
    const a = samples[i];
    const b = samples[i + 1];
    if (!a || !b) return null;
    const v = a.volts + ((b.volts - a.volts) * (ms - a.ms)) / (b.ms - a.ms);
    if (v >= 22 && v <= 29) {
      since = null;
      continue;
    }
    if (since === null || high !== v > 29) {
      since = ms;
      high = v > 29;
    }
    const t = ms - since;
    const top = t <= 12.5 ? 50 : t <= 82.5 ? 50 - (t - 12.5) * 0.3 : 29;
    const bottom = t <= 15 ? 18 : t <= 100 ? 18 + ((t - 15) * 4) / 85 : 22;
    if (v > top + 0.005 || v < bottom - 0.005) return ms;
  }
  return null;
}
