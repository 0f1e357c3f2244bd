import { describe, expect, it } from "vitest";
import { figuresNow, figuresOfAircraft } from "../../shared/figures/all.ts";
import { neighbourFigures, standCaseOf, tooNear } from "../../shared/figures/neighbours.ts";
import { outlineOf } from "../../shared/models/geometry/neighbour.ts";
import { keptBehind } from "../../shared/plan/standPlan.ts";
import type { StandNeighbour } from "../../shared/protocol/neighbours.ts";
import { plannedStand } from "../../web/posts/shared/standView.ts";
import { FOUR } from "../spec/aircraft.ts";
import { given } from "../spec/given.ts";
import { RICH } from "./rich.ts";
import { inputOf } from "./told.ts";

const near = (more: Partial<StandNeighbour> = {}): StandNeighbour => ({
  kind: "building",
  name: "Hangar 2",
  bearingDeg: 90,
  distance: { value: 30, unit: "m" },
  across: { value: 10, unit: "m" },
  ...more,
});
const parked = (neighbours: StandNeighbour[], type = RICH, headingDeg = 90) =>
  given({ type, more: { headingDeg, neighbours } });
const figures = (...args: Parameters<typeof parked>) => neighbourFigures(standCaseOf(parked(...args).state));

describe("what stands near", () => {
  // By hand: a neighbour seen on bearing b from heading h lies d cos(b - h) ahead and d sin(b - h) to starboard.
  it.each([
    [90, { x: -30, y: 0 }],
    [180, { x: 0, y: 30 }],
    [0, { x: 0, y: -30 }],
    [270, { x: 30, y: 0 }],
    [120, { x: -30 * Math.cos(Math.PI / 6), y: 15 }],
  ])(
    "[GEO-1] on bearing %d° with the nose to 90° its near side lies where it is seen",
    (bearingDeg, middle) => {
      const [a, b, c] = outlineOf(near({ bearingDeg }), 90);
      if (!a || !b || !c) throw new Error("four corners");
      expect((a.x + b.x) / 2).toBeCloseTo(middle.x, 9);
      expect((a.y + b.y) / 2).toBeCloseTo(middle.y, 9);
      expect(Math.hypot(a.x - b.x, a.y - b.y)).toBeCloseTo(10, 9);
      // Away from the nose, not towards it.
      expect(Math.hypot(c.x, c.y)).toBeGreaterThan(Math.hypot(b.x, b.y));
    },
  );

  // The test type keeps 10 m around; behind, 20 m or the stream down to 15.646 m/s: 56.66 x 6.2 x 2.828 / 15.646.
  it("[GEO-2] ahead of the nose, 10 m are not more than 10 m, and 10.01 m are", () => {
    const at = (value: number) => figures([near({ distance: { value, unit: "m" } })])[0];
    expect(at(10)).toMatchObject({ verdict: "bad", value: 10 });
    expect(at(10.01)?.verdict).toBe("good");
    expect(at(10)?.detail).toBe("Hangar 2: 10.0 m around, more than 10.0 m needed");
    expect(figures([near({ distance: { value: 32.81, unit: "ft" } })])[0]?.verdict).toBe("good");
  });

  it("[GEO-2] behind a propeller the stream's reach decides where it is the larger, and the figure opens to both", () => {
    const reach = (56.66 * 6.2 * 2.828) / 15.646;
    const behind = (value: number) => figures([near({ bearingDeg: 270, distance: { value, unit: "m" } })])[0];
    // The engines' discs stand 8 m aft of the nose.
    expect(behind(8 + reach - 0.2)?.verdict).toBe("bad");
    expect(behind(8 + reach - 0.2)?.caution).toMatch(
      /behind number \d, more than 63\.\d m needed, by its stream/,
    );
    expect(behind(8 + reach + 0.2)?.verdict).toBe("good");
    const weak = { ...RICH, ramp: { ...RICH.ramp, jet: undefined } } as unknown as typeof RICH;
    const figure = figures([near({ bearingDeg: 270, distance: { value: 40, unit: "m" } })], weak)[0];
    expect(figure).toMatchObject({ verdict: "good", caution: expect.stringContaining("gives no stream") });
    expect(inputOf(behind(60), "power while starting").value).toBe(1000);
  });

  it("[GEO-2] without clear distances in the type there is no verdict", () => {
    expect(figures([near()], FOUR)[0]).toMatchObject({
      value: null,
      verdict: "unknown",
      caution: expect.stringContaining("gives no clear distances"),
    });
  });

  it("[GEO-3] what is too near stands on every panel at once, what is far enough among the rest", () => {
    const { state } = parked([
      near(),
      near({ name: "Fuel truck", kind: "fuelling", distance: { value: 4, unit: "m" } }),
    ]);
    for (const post of [null, "cockpit", "fireGuard"] as const) {
      const now = figuresNow(state, post, state.at).filter((f) => f.id.startsWith("neighbour:"));
      expect(now.map((f) => f.words)).toEqual(["neighbour.fuelling"]);
    }
    expect(figuresOfAircraft(state, state.at).filter((f) => f.id.startsWith("neighbour:"))).toHaveLength(2);
    expect(tooNear(standCaseOf(state))).toEqual(["Fuel truck: 4.0 m around, more than 10.0 m needed"]);
  });

  it("[GEO-4] behind each engine to be started the ground of the kind that asks for most is kept", () => {
    const kept = keptBehind({ type: RICH, engines: [3, 4] });
    expect(kept.map((k) => [k.engine, k.decidedBy])).toEqual([
      [3, "stream"],
      [4, "stream"],
    ]);
    expect(kept[0]?.metres).toBeCloseTo((56.66 * 6.2 * 2.828) / 15.646, 1);
    const { distances } = RICH.ramp ?? {};
    if (!distances) throw new Error("the type gives clear distances");
    const wide = { ...distances.public, behind: { ...distances.public.behind, value: 100 } };
    const far = { ...RICH, ramp: { ...RICH.ramp, distances: { ...distances, public: wide } } };
    expect(keptBehind({ type: far, engines: [1] })[0]).toMatchObject({
      kind: "public",
      metres: 100,
      decidedBy: "figure",
    });
    expect(keptBehind({ type: FOUR, engines: [1] })).toEqual([]);
  });
});

describe("the stand of a plan", () => {
  it("[GEO-4] hatches the engines to start, and leads the guard to the first of them", () => {
    const { type } = parked([]).state;
    const [first] = type.engines;
    if (!first) throw new Error("an engine");
    const one = plannedStand({ type, engines: [first.n], headingDeg: 90, neighbours: [] });
    expect(one.arcs.filter((a) => a.turning).map((a) => a.n)).toEqual([first.n]);
    expect(one.walk[0]).toEqual(type.ramp?.guard?.waits);
    expect(one.walk.length).toBeGreaterThan(1);
    const none = plannedStand({ type, engines: [], headingDeg: 90, neighbours: [] });
    expect(none.arcs.some((a) => a.turning)).toBe(false);
    expect(none.walk).toEqual([]);
  });

  it("[GEO-2] says of what stands near the distance that decides, and none where no heading is planned", () => {
    const { type } = parked([]).state;
    const stand = {
      type,
      engines: [1],
      headingDeg: 90,
      neighbours: [near({ distance: { value: 10, unit: "m" } })],
    };
    expect(plannedStand(stand).near[0]).toMatchObject({ tooNear: true, metres: 10 });
    expect(plannedStand({ ...stand, headingDeg: undefined }).near).toEqual([]);
  });
});
