import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { wake } from "../../shared/models/geometry/blastZone.ts";
import { guardStation } from "../../shared/models/geometry/guardStation.ts";
import { FREE_JET } from "../../shared/models/geometry/jet.ts";
import { holds, type Polygon } from "../../shared/models/geometry/polygon.ts";
import { distanceToDisc, propellerOf, turningArc } from "../../shared/models/geometry/propeller.ts";
import { type Neighbour, type SeparationCase, separations } from "../../shared/models/geometry/separation.ts";
import type { Limit } from "../../shared/types/limit.ts";
import { must } from "./must.ts";

const type = {
  plan: { span: 36, length: 28 },
  engines: [
    { n: 1, x: 8, y: -10 },
    { n: 2, x: 6, y: -4.5 },
    { n: 3, x: 6, y: 4.5 },
    { n: 4, x: 8, y: 10 },
  ],
  propeller: { diameter: 4 },
};
const propeller = (n: number) => {
  const p = propellerOf(type, n);
  if (!p) throw new Error(`no engine ${n}`);
  return p;
};
const rule = { standOff: 1.2, ahead: 0, aheadMost: 8 };

describe("guard's place", () => {
  it("[MOD-71] is outboard of the engine, on either side", () => {
    expect(must(guardStation(propeller(1), [], rule))).toEqual({ x: 8, y: -13.2 });
    expect(must(guardStation(propeller(4), [], rule))).toEqual({ x: 8, y: 13.2 });
    expect(must(guardStation({ hub: { x: 3, y: 0 }, diameter: 4 }, [], rule)).y).toBe(-3.2);
  });

  it("[MOD-71] moves ahead of a turning arc, and is refused if there is no such place", () => {
    // Engine 1 turns and closes its arc and stream: the place beside engine 2 lies between them.
    const closed = [turningArc(propeller(1), 2), wake(propeller(1).hub, 2, 60, FREE_JET)];
    const usual = must(guardStation(propeller(2), [], { ...rule, ahead: -2 }));
    expect(closed.some((c) => holds(c, usual))).toBe(true);
    const place = must(guardStation(propeller(2), closed, { ...rule, ahead: -2 }));
    expect(place.y).toBe(usual.y);
    expect(place.x).toBeLessThan(6);
    const everywhere: Polygon = [
      { x: -50, y: -50 },
      { x: 50, y: -50 },
      { x: 50, y: 50 },
      { x: -50, y: 50 },
    ];
    expect(guardStation(propeller(2), [everywhere], rule).ok).toBe(false);
  });

  it("[MOD-71] any place given is outboard, clear of the disc and of everything closed", () => {
    const running = fc.uniqueArray(fc.constantFrom(1, 2, 3, 4), { maxLength: 3 });
    const margin = fc.double({ min: 0.5, max: 3, noNaN: true });
    fc.assert(
      fc.property(
        running,
        fc.constantFrom(1, 2, 3, 4),
        margin,
        fc.integer({ min: -4, max: 2 }),
        (on, n, m, ahead) => {
          if (on.includes(n)) return;
          const closed = on.flatMap((k) => [
            turningArc(propeller(k), m),
            wake(propeller(k).hub, 2, 40, FREE_JET),
          ]);
          const place = guardStation(propeller(n), closed, { ...rule, ahead });
          if (!place.ok) return;
          expect(Math.abs(place.value.y)).toBeGreaterThan(Math.abs(propeller(n).hub.y));
          expect(distanceToDisc(place.value, propeller(n))).toBeGreaterThanOrEqual(rule.standOff - 1e-8);
          for (const c of closed) expect(holds(c, place.value)).toBe(false);
        },
      ),
      { seed: 71 },
    );
  });
});

describe("clear distances", () => {
  const length = (value: number, unit: "ft" | "m", text: string): Limit => ({
    value,
    unit,
    source: { basis: "published", text },
  });
  const tm = (value: number) => length(value, "ft", "TM 1-1500-204-23-1 p. 36");
  const order = (value: number) => length(value, "m", "CAO 20.9 s. 5, second-hand");
  const distances: SeparationCase["distances"] = {
    fuelling: { around: tm(50), behind: tm(100), windMs: 9 },
    building: { around: order(5), behind: order(8), windMs: 25 },
    aircraft: { around: order(8), behind: tm(100), windMs: 15.646 },
    public: { around: order(15), behind: tm(100), windMs: 9 },
  };
  const still = { speedMs: 0.1, diameterM: 2.83 };
  const stand = (engines: number[], jet = still): SeparationCase => ({
    type,
    engines,
    jet,
    assumption: FREE_JET,
    distances,
  });
  const box = (x: number, y: number, side = 2): Polygon => [
    { x, y },
    { x: x + side, y },
    { x: x + side, y: y + side },
    { x, y: y + side },
  ];
  const near = (kind: Neighbour["kind"], outline: Polygon): Neighbour => ({ id: "n", kind, outline });

  it("[MOD-73] fuel at 49 ft is too near; at 50 ft it is still within 50 ft; beyond it is clear (TM 1-1500-204-23-1)", () => {
    const off = (feet: number) => {
      const [check] = must(separations([near("fuelling", box(-2 - feet * 0.3048, -1))], stand([1])));
      return check;
    };
    expect(off(49)).toMatchObject({ rule: "around", clear: false, decidedBy: "figure" });
    expect(off(50)?.clear).toBe(false);
    expect(off(50.01)?.clear).toBe(true);
    expect(off(49)?.gap).toBeCloseTo(49 * 0.3048, 9);
  });

  it("[MOD-73] is measured from nose, tail, wing tips and discs", () => {
    const gapTo = (outline: Polygon) => must(separations([near("building", outline)], stand([])))[0]?.gap;
    expect(gapTo(box(-7, -1))).toBeCloseTo(5, 9);
    expect(gapTo(box(34, -1))).toBeCloseTo(6, 9);
    expect(gapTo(box(6, 21))).toBeCloseTo(3, 9);
    expect(gapTo(box(6, 3))).toBe(0);
  });

  it("[MOD-73] is behind the larger of the type's figure and the stream, and names which", () => {
    const other = near("aircraft", box(6 + 40, -5));
    const behind = (jet: typeof still, outline = other) =>
      must(separations([outline], stand([2], jet))).filter((c) => c.rule === "behind");
    // 100 ft = 30.48 m needed; 40 m is enough while the stream is weak.
    expect(behind(still)).toEqual([]);
    const strong = { speedMs: 50.975, diameterM: 2.8284 };
    expect(behind(strong)).toEqual([
      expect.objectContaining({
        engine: 2,
        decidedBy: "stream",
        needed: expect.closeTo(57.13, 2),
        clear: false,
        gap: expect.closeTo(40, 9),
      }),
    ]);
    expect(behind(still, near("aircraft", box(6 + 20, -5)))).toEqual([
      expect.objectContaining({ decidedBy: "figure", needed: expect.closeTo(30.48, 9), clear: false }),
    ]);
    // Beside the stream no distance behind is needed.
    expect(behind(strong, near("aircraft", box(20, 40)))).toEqual([]);
  });

  it("[MOD-73] never becomes clear by a stronger stream or a nearer neighbour", () => {
    const at = fc.record({ x: fc.integer({ min: 10, max: 90 }), y: fc.integer({ min: -30, max: 30 }) });
    fc.assert(
      fc.property(
        at,
        fc.integer({ min: 1, max: 60 }),
        fc.integer({ min: 0, max: 40 }),
        ({ x, y }, speed, more) => {
          const clear = (speedMs: number) =>
            must(
              separations([near("aircraft", box(x, y))], stand([1, 2, 3, 4], { speedMs, diameterM: 2.83 })),
            ).every((c) => c.clear);
          if (clear(speed + more)) expect(clear(speed)).toBe(true);
        },
      ),
      { seed: 73 },
    );
  });

  it("[MOD-73] refuses an engine that the type does not have and a distance that is no length", () => {
    expect(separations([near("building", box(40, 0))], stand([7])).ok).toBe(false);
    const wrong = {
      ...stand([1]),
      distances: {
        ...distances,
        building: { ...distances.building, around: { ...order(5), unit: "psi" as const } },
      },
    };
    expect(separations([near("building", box(40, 0))], wrong).ok).toBe(false);
  });
});
