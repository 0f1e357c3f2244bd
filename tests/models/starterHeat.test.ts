import { createRequire } from "node:module";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { hottestOnLadder } from "../../shared/models/ladderHeat.ts";
import { starterDuty } from "../../shared/models/starter.ts";
import {
  coolDownLeft,
  heatAfter,
  heatAtRest,
  heatEngaged,
  heatRatio,
  peakPart,
  type StarterHeat,
} from "../../shared/models/starterThermal.ts";
import { bandFor, type TemperatureBand } from "../../shared/models/temperatureBand.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { must } from "./must.ts";

/** Hairer's extrapolation solver; the package ships no types that compile. */
interface Odex {
  Solver: new (
    n: number,
  ) => {
    absoluteTolerance: number;
    relativeTolerance: number;
    solve(f: (x: number, y: number[]) => number[], from: number, y0: number[], to: number): { y: number[] };
  };
}
const require = createRequire(import.meta.url);
const { Solver } = require("odex") as Odex;
const integrate = (slope: (y: number) => number, start: number, seconds: number): number => {
  const solver = new Solver(1);
  solver.absoluteTolerance = 1e-11;
  solver.relativeTolerance = 1e-11;
  return solver.solve((_x, [y = 0]) => [slope(y)], 0, [start], seconds).y[0] ?? Number.NaN;
};

const model = (tauOn: number, tauOff = tauOn, steady = 1): StarterHeat => ({ steady, tauOn, tauOff });

describe("starter heat", () => {
  it("[MOD-19] from 80 to 40 at a constant of 600 s takes 600·ln 2 = 415.888 s", () => {
    expect(must(coolDownLeft(model(60, 600), 80, 40))).toBeCloseTo(415.888, 3);
    expect(must(coolDownLeft(model(60, 600), 39, 40))).toBe(0);
  });

  // Closed form, computed independently; the last three are IEC 60034-1 duty S3 (10-min cycle, from memory) at τ = 30
  // min.
  it.each([
    [30, 60, 300, 0.36717],
    [60, 60, 300, 0.54983],
    [30, 30, 600, 0.5125],
    [150, 450, 1800, 0.28206],
    [240, 360, 1800, 0.44035],
    [360, 240, 1800, 0.63947],
  ])("[MOD-19] %i s on, %i s off at %i s peaks at %f of the steady heat", (on, off, tau, part) => {
    expect(must(peakPart(model(tau), on, off))).toBeCloseTo(part, 5);
  });

  it("[MOD-19] a hundred simulated cycles come to the same peak", () => {
    const cycles = Array.from({ length: 100 }, (_, i) => ({ on: i * 90, off: i * 90 + 30 }));
    for (const m of [model(300), model(200, 700)]) {
      expect(must(heatAfter(m, cycles, 99 * 90 + 30))).toBeCloseTo(must(peakPart(m, 30, 60)), 5);
    }
  });

  it("[MOD-19] for long time constants the peak tends to the duty factor", () => {
    for (const [on, off] of [
      [30, 60],
      [40, 60],
      [10, 20],
    ] as const) {
      expect(must(peakPart(model(1e6), on, off))).toBeCloseTo(on / (on + off), 4);
    }
  });

  it("[MOD-19] agrees with odex on engaged, at rest and a ladder in between", () => {
    const m = model(120, 900, 150);
    const on = (y: number) => (150 - y) / 120;
    const rest = (y: number) => -y / 900;
    expect(must(heatEngaged(m, 20, 40))).toBeCloseTo(integrate(on, 20, 40), 7);
    expect(must(heatAtRest(m, 80, 600))).toBeCloseTo(integrate(rest, 80, 600), 7);
    let heat = 0;
    for (const [i, seconds] of [40, 60, 40, 60, 40, 500].entries()) {
      heat = integrate(i % 2 === 0 ? on : rest, heat, seconds);
    }
    const uses = [
      { on: 1000, off: 1040 },
      { on: 1100, off: 1140 },
      { on: 1200, off: 1240 },
    ];
    expect(must(heatAfter(m, uses, 1740))).toBeCloseTo(heat, 6);
  });

  it("[MOD-19] resting for the cool-down left brings the heat to its limit; a longer engagement is never cooler", () => {
    const heat = fc.double({ min: 1, max: 200, noNaN: true });
    const seconds = fc.double({ min: 0, max: 600, noNaN: true });
    fc.assert(
      fc.property(heat, heat, seconds, seconds, (a, b, s, t) => {
        const m = model(120, 900, 250);
        const [low, high] = [Math.min(a, b), Math.max(a, b)];
        const left = must(coolDownLeft(m, high, low));
        expect(must(heatAtRest(m, high, left))).toBeCloseTo(low, 9);
        const [short, long] = [Math.min(s, t), Math.max(s, t)];
        expect(must(heatEngaged(m, low, long))).toBeGreaterThanOrEqual(
          must(heatEngaged(m, low, short)) - 1e-12,
        );
        expect(must(heatEngaged(m, low, long))).toBeLessThanOrEqual(250);
      }),
      { seed: 60034 },
    );
  });

  it("[MOD-93] the highest heat of a ladder is that of the hottest of many simulated ways through it", () => {
    const step = fc.record({ on: fc.integer({ min: 1, max: 90 }), rest: fc.integer({ min: 1, max: 600 }) });
    const ladders = fc.record({
      steps: fc.array(step, { minLength: 1, maxLength: 4 }),
      more: fc.integer({ min: 0, max: 600 }),
    });
    fc.assert(
      fc.property(ladders, fc.integer({ min: 1, max: 2 ** 30 }), ({ steps, more }, die) => {
        const m = model(120, 300, 250);
        const reset = Math.max(...steps.map((s) => s.rest)) + more;
        const most = must(hottestOnLadder(m, { steps, reset }));
        let [heat, at, hottest] = [0, 0, 0];
        for (let k = 0; k < 300; k += 1) {
          const one = steps[Math.min(at, steps.length - 1)] ?? { on: 1, rest: 1 };
          heat = must(heatEngaged(m, heat, one.on));
          hottest = Math.max(hottest, heat);
          const anew = ((die >> (k % 30)) & 1) === 1 && at % 3 === die % 3;
          heat = must(heatAtRest(m, heat, anew ? reset : one.rest));
          at = anew ? 0 : at + 1;
        }
        expect(hottest).toBeLessThanOrEqual(most + 1e-9);
      }),
      { seed: 93 },
    );
    // One step round and round is the endless cycle of IEC 60034-1 duty S3, in closed form.
    const round = must(hottestOnLadder(model(300, 300, 1), { steps: [{ on: 30, rest: 60 }], reset: 60 }));
    expect(round).toBeCloseTo(0.36717, 5);
    // TM 55-1510-215-10: the ladder once, then its 30 min of rest. Odex gives the same peak.
    const once = { steps: [40, 40, 40].map((on, i) => ({ on, rest: [60, 60, 1e6][i] ?? 0 })), reset: 1e6 };
    let heat = 0;
    for (const [i, seconds] of [40, 60, 40, 60, 40].entries())
      heat = integrate(i % 2 === 0 ? (y) => (150 - y) / 120 : (y) => -y / 900, heat, seconds);
    expect(must(hottestOnLadder(model(120, 900, 150), once))).toBeCloseTo(heat, 6);
  });

  it("[MOD-19] a starter still engaged heats up to now; an unused one is cold", () => {
    const m = model(120, 900, 150);
    expect(must(heatAfter(m, [{ on: 0, off: null }], 30))).toBe(must(heatEngaged(m, 0, 30)));
    expect(must(heatAfter(m, [], 30))).toBe(0);
    expect(heatAfter(m, [{ on: 10, off: 5 }], 30).ok).toBe(false);
    expect(
      heatAfter(
        m,
        [
          { on: 0, off: 20 },
          { on: 10, off: 25 },
        ],
        30,
      ).ok,
    ).toBe(false);
    expect(heatAfter(m, [{ on: 0, off: 40 }], 30).ok).toBe(false);
  });

  // Trade article on turboprop starting: heat goes with the square of the current.
  it("[MOD-19] 800 A against 200 A is 16 times the heat; three times the current nine times", () => {
    expect(must(heatRatio(800, 200))).toBe(16);
    expect(must(heatRatio(300, 100))).toBeCloseTo(9, 12);
  });

  it("[MOD-36] negative times, heats and constants are refused", () => {
    expect(heatEngaged(model(120), 0, -1).ok).toBe(false);
    expect(heatAtRest(model(120), -1, 1).ok).toBe(false);
    expect(coolDownLeft(model(0), 1, 1).ok).toBe(false);
    expect(coolDownLeft(model(100), 10, 0).ok).toBe(false);
    expect(peakPart(model(100), 0, 10).ok).toBe(false);
    expect(heatRatio(100, 0).ok).toBe(false);
  });
});

type Starter = AircraftType["starter"];
const seconds = (value: number) => ({
  value,
  unit: "s" as const,
  source: { basis: "published" as const, text: "below" },
});
const ladder = (steps: [on: number, rest: number][], resetAfter: number): Starter => ({
  ladder: steps.map(([on, rest]) => ({ onMax: seconds(on), rest: seconds(rest) })),
  resetAfter: seconds(resetAfter),
});
/** Engagements as [on, off] seconds. */
const uses = (...pairs: [number, number][]) => pairs.map(([on, off]) => ({ on: on * 1000, off: off * 1000 }));
const permittedAt = (starter: Starter, used: [number, number][]) => {
  const last = used.at(-1)?.[1] ?? 0;
  return starterDuty(starter, uses(...used), last * 1000).permittedAt / 1000;
};

describe("starter ladders", () => {
  it("[MOD-20, STR-1] TM 55-1510-215-10: 40 on, 60 off, 40 on, 60 off, 40 on, 30 min off", () => {
    const starter = ladder(
      [
        [40, 60],
        [40, 60],
        [40, 1800],
      ],
      1800,
    );
    expect(permittedAt(starter, [[0, 40]])).toBe(100);
    expect(
      permittedAt(starter, [
        [0, 40],
        [100, 140],
      ]),
    ).toBe(200);
    expect(
      permittedAt(starter, [
        [0, 40],
        [100, 140],
        [200, 240],
      ]),
    ).toBe(2040);
    // 39 s is an engagement too; 41 s is longer than the step allows.
    expect(permittedAt(starter, [[0, 39]])).toBe(99);
    expect(starterDuty(starter, [], 0).onMax).toBe(40_000);
  });

  it("[MOD-20] light starters (makers' limit, from memory): 10 s on, 20 s off, six times, then 30 min", () => {
    const starter = ladder(
      [...Array.from({ length: 5 }, (): [number, number] => [10, 20]), [10, 1800]],
      1800,
    );
    const used = Array.from({ length: 6 }, (_, i): [number, number] => [i * 30, i * 30 + 10]);
    expect(permittedAt(starter, used.slice(0, 5))).toBe(150);
    expect(permittedAt(starter, used)).toBe(160 + 1800);
  });

  // TM 1-1520-238-10 para 5.6: 60 s between cycles; at or below 16 °C two cycles, 3 min, two cycles, 30 min; above it
  // two cycles, then 30 min. It does not print the time of one cycle: the test uses 40 s.
  const bands: TemperatureBand<Starter>[] = [
    {
      upTo: { value: 16, unit: "degC" },
      use: ladder(
        [
          [40, 60],
          [40, 180],
          [40, 60],
          [40, 1800],
        ],
        1800,
      ),
    },
    {
      upTo: null,
      use: ladder(
        [
          [40, 60],
          [40, 1800],
        ],
        1800,
      ),
    },
  ];
  const at = (value: number, unit: "degC" | "degF" = "degC") => must(bandFor(bands, { value, unit }));
  const two: [number, number][] = [
    [0, 40],
    [100, 140],
  ];

  it("[MOD-20] the temperature chooses the ladder: after two cycles 3 min at 16 degC, 30 min at 16.1", () => {
    expect(permittedAt(at(16), two)).toBe(140 + 180);
    expect(permittedAt(at(16), [...two, [320, 360], [420, 460]])).toBe(460 + 1800);
    expect(permittedAt(at(16.1), two)).toBe(140 + 1800);
    expect(permittedAt(at(60.8, "degF"), two)).toBe(140 + 180);
    expect(permittedAt(at(61, "degF"), two)).toBe(140 + 1800);
    expect(permittedAt(at(-30), two)).toBe(140 + 180);
  });

  it("[MOD-20] a temperature outside every band, a figure of another kind and bands out of order are refused", () => {
    const capped = bands.slice(0, 1);
    expect(bandFor(capped, { value: 17, unit: "degC" }).ok).toBe(false);
    expect(bandFor(bands, { value: 17, unit: "psi" }).ok).toBe(false);
    expect(bandFor(bands.slice(1), { value: 17, unit: "psi" }).ok).toBe(false);
    expect(bandFor([...bands].reverse(), { value: 17, unit: "degC" }).ok).toBe(false);
    expect(bandFor([...capped, ...capped], { value: 10, unit: "degC" }).ok).toBe(false);
    expect(bandFor([], { value: 17, unit: "degC" }).ok).toBe(false);
  });
});
