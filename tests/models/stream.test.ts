import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { blastZone } from "../../shared/models/geometry/blastZone.ts";
import { FREE_JET, jetReach, jetSpeed, jetSpeedAside } from "../../shared/models/geometry/jet.ts";
import { holds } from "../../shared/models/geometry/polygon.ts";
import { distanceToDisc, propellerOf, turningArc } from "../../shared/models/geometry/propeller.ts";
import { actuatorDisk, standingThrust } from "../../shared/models/geometry/slipstream.ts";
import { must } from "./must.ts";

const SEA_LEVEL = 1.225;
const MPH = 0.44704;
const HORSEPOWER = 745.6999;

describe("actuator disk", () => {
  it("[MOD-69] 20 kN on 4 m standing at sea level (arithmetic on the textbook's equations)", () => {
    const stream = must(actuatorDisk(20_000, 4, SEA_LEVEL));
    expect(stream.inducedMs).toBeCloseTo(25.4875, 4);
    expect(stream.wakeMs).toBeCloseTo(50.975, 3);
    expect(stream.idealPowerW).toBeCloseTo(509_750, -1);
    expect(stream.wakeDiameterM).toBeCloseTo(2.82843, 5);
    expect(stream.efficiency).toBe(0);
  });

  it("[MOD-69] 10 kN on 3.96 m; 20 kN moving at 50 m/s", () => {
    const small = must(actuatorDisk(10_000, 3.96, SEA_LEVEL));
    expect(small.inducedMs).toBeCloseTo(18.2044, 4);
    expect(small.wakeMs).toBeCloseTo(36.4088, 4);
    const moving = must(actuatorDisk(20_000, 4, SEA_LEVEL, 50));
    expect(moving.inducedMs).toBeCloseTo(10.7017, 4);
    expect(moving.wakeMs).toBeCloseTo(71.403, 3);
    expect(moving.efficiency).toBeCloseTo(0.8237, 5);
  });

  it.each([
    [1, 31_341.9, 63.812],
    [0.7, 24_709, 56.66],
  ])("[MOD-69] 1 MW on 4 m with figure of merit %d", (merit, thrust, wake) => {
    const t = must(standingThrust(1e6, 4, SEA_LEVEL, merit));
    expect(Math.abs(t - thrust)).toBeLessThan(0.6);
    expect(must(actuatorDisk(t, 4, SEA_LEVEL)).wakeMs).toBeCloseTo(wake, 2);
  });

  it("[MOD-69] Houghton and Carpenter: 16 m rotor, 170 N/m2, 53 % of 600 kW climbs at about 110 m/min (answer from memory)", () => {
    const thrust = 170 * Math.PI * 8 ** 2;
    expect(thrust).toBeCloseTo(34_180.5, 1);
    // T (V + v) = 0.53 P determines V + v; the disk then gives v for that V.
    const through = (0.53 * 600_000) / thrust;
    expect(through).toBeCloseTo(9.3035, 4);
    const climb = 1.8453;
    const stream = must(actuatorDisk(thrust, 16, 1.226, climb));
    expect(Math.abs(climb + stream.inducedMs - through)).toBeLessThan(0.01);
    expect(must(actuatorDisk(thrust, 16, SEA_LEVEL, climb)).inducedMs).toBeCloseTo(7.4582, 3);
    expect(climb * 60).toBeCloseTo(110.7, 1);
  });

  // Ideal far stream of a 3.53 m propeller at 70 %, by arithmetic; no published table was found.
  it.each([
    [60, 43],
    [100, 50],
    [300, 73],
    [600, 92],
    [1200, 115],
  ])("[MOD-69] %d hp on 3.53 m with figure of merit 0.7 blows at %d kt", (horsepower, knots) => {
    const area = (Math.PI * 3.53 ** 2) / 4;
    const wake = 2 * Math.cbrt((0.7 * horsepower * HORSEPOWER) / (2 * SEA_LEVEL * area));
    const thrust = must(standingThrust(horsepower * HORSEPOWER, 3.53, SEA_LEVEL, 0.7));
    const stream = must(actuatorDisk(thrust, 3.53, SEA_LEVEL));
    expect(stream.wakeMs).toBeCloseTo(wake, 6);
    // 60 hp gives 42.5 kt.
    expect(Math.abs((wake * 3600) / 1852 - knots)).toBeLessThan(0.6);
  });

  it("[MOD-69] obeys momentum: T = rho A (V + v) 2v, and mass through disc and wake is one", () => {
    const positive = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        positive(100, 40_000),
        positive(2, 6),
        positive(0.7, 1.4),
        positive(0, 80),
        (t, d, rho, v0) => {
          const s = must(actuatorDisk(t, d, rho, v0));
          const area = (Math.PI * d * d) / 4;
          expect((rho * area * (v0 + s.inducedMs) * 2 * s.inducedMs) / t).toBeCloseTo(1, 8);
          expect((s.wakeDiameterM ** 2 * s.wakeMs) / (d ** 2 * (v0 + s.inducedMs))).toBeCloseTo(1, 9);
        },
      ),
      { seed: 69 },
    );
    expect(actuatorDisk(0, 4, 1).ok).toBe(false);
    expect(actuatorDisk(1, 4, 1, -1).ok).toBe(false);
    expect(standingThrust(1, 4, 1, 1.1).ok).toBe(false);
    expect(standingThrust(0, 4, 1, 1).ok).toBe(false);
  });
});

describe("how a stream slows down", () => {
  const jet = { speedMs: 50.975, diameterM: 2.8284 };

  it("[MOD-69] 20, 40 and 60 m behind; 35 mph at 57.13 m, 30 mph at 66.65 m (arithmetic, K 6.2)", () => {
    expect([20, 40, 60].map((x) => jetSpeed(jet, x, FREE_JET).value)).toEqual(
      [44.7, 22.35, 14.9].map((v) => expect.closeTo(v, 2)),
    );
    expect(jetReach(jet, 35 * MPH, FREE_JET).value).toBeCloseTo(57.13, 2);
    expect(jetReach(jet, 30 * MPH, FREE_JET).value).toBeCloseTo(66.65, 2);
    expect(jetReach(jet, 30 * MPH, FREE_JET).assumption).toBe(FREE_JET);
  });

  it("[MOD-69] has full speed in the core and half of the middle's at the half-width, and reaches farther near the ground", () => {
    expect(jetSpeed(jet, 0, FREE_JET).value).toBe(jet.speedMs);
    expect(jetSpeed(jet, 17.5, FREE_JET).value).toBe(jet.speedMs);
    expect(jetSpeedAside(jet, 40, 4, FREE_JET).value).toBeCloseTo(22.35 / 2, 2);
    const near = { ...FREE_JET, groundFactor: 1.5 };
    expect(jetReach(jet, 35 * MPH, near).value).toBeCloseTo(57.13 * 1.5, 1);
    expect(jetSpeed(jet, 60, near).value).toBeCloseTo(jetSpeed(jet, 40, FREE_JET).value, 9);
    expect(jetReach(jet, 60, FREE_JET).value).toBe(0);
  });

  it("[MOD-69] the speed at the computed reach is the given speed", () => {
    const speed = fc.double({ min: 1, max: 50, noNaN: true });
    fc.assert(
      fc.property(speed, fc.double({ min: 1, max: 2, noNaN: true }), (limit, groundFactor) => {
        const assumption = { ...FREE_JET, groundFactor };
        expect(jetSpeed(jet, jetReach(jet, limit, assumption).value, assumption).value).toBeCloseTo(limit, 6);
      }),
      { seed: 70 },
    );
  });
});

describe("ground closed by a propeller", () => {
  const type = {
    engines: [
      { n: 1, x: 6, y: -9 },
      { n: 2, x: 5, y: -4 },
    ],
    propeller: { diameter: 4 },
  };

  it("[MOD-68] is taken from the type; null for an engine that it does not have", () => {
    expect(propellerOf(type, 2)).toEqual({ hub: { x: 5, y: -4 }, diameter: 4 });
    expect(propellerOf(type, 3)).toBeNull();
  });

  it("[MOD-68] the arc contains every point within its margin of the disc", () => {
    const propeller = { hub: { x: 5, y: -4 }, diameter: 4 };
    const span = fc.double({ min: -8, max: 8, noNaN: true });
    fc.assert(
      fc.property(span, span, fc.double({ min: 0.1, max: 4, noNaN: true }), (dx, dy, margin) => {
        const p = { x: 5 + dx, y: -4 + dy };
        if (distanceToDisc(p, propeller) < margin) expect(holds(turningArc(propeller, margin), p)).toBe(true);
        else if (Math.abs(dx) > margin || Math.abs(dy) > margin + 2) {
          expect(holds(turningArc(propeller, margin - 1e-6), p)).toBe(false);
        }
      }),
      { seed: 71, numRuns: 300 },
    );
  });

  it("[MOD-70] the blast zone contains every place where the air is faster than the limit", () => {
    const propeller = { hub: { x: 0, y: 0 }, diameter: 4 };
    const wakeDiameterM = 4 / Math.SQRT2;
    fc.assert(
      fc.property(
        fc.double({ min: 1.01, max: 20, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: -40, max: 40, noNaN: true }),
        fc.double({ min: 1, max: 2, noNaN: true }),
        (ratio, part, aside, groundFactor) => {
          const assumption = { ...FREE_JET, groundFactor };
          const jet = { speedMs: 10 * ratio, diameterM: wakeDiameterM };
          const zone = blastZone(propeller, jet, 10, assumption);
          if (!zone) throw new Error("no zone");
          const at = { x: part * zone.reach * 1.2, y: aside };
          if (jetSpeedAside(jet, at.x, aside, assumption).value > 10 * (1 + 1e-9)) {
            expect(holds(zone.polygon, at)).toBe(true);
          }
          expect(holds(zone.polygon, { x: zone.reach * 1.01, y: 0 })).toBe(false);
        },
      ),
      { seed: 73, numRuns: 600 },
    );
  });

  it("[MOD-70] is no zone if no stream exceeds the limit; its inputs are returned with it", () => {
    const propeller = { hub: { x: 0, y: 0 }, diameter: 4 };
    expect(blastZone(propeller, { speedMs: 9, diameterM: 3 }, 10, FREE_JET)).toBeNull();
    expect(blastZone(propeller, { speedMs: 20, diameterM: 3 }, 10, FREE_JET)?.assumption).toBe(FREE_JET);
  });
});
