import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { blastZone } from "../../shared/models/geometry/blastZone.ts";
import { FREE_JET } from "../../shared/models/geometry/jet.ts";
import { type Propeller, propellerOf, turningArc } from "../../shared/models/geometry/propeller.ts";
import { guardWalks } from "../../shared/models/order/guardWalks.ts";
import type { OrderCase, OrderWeights } from "../../shared/models/order/orderCost.ts";
import { adviseOrder, type OrderAdvice } from "../../shared/models/order/startOrder.ts";
import { must } from "./must.ts";

const weights: OrderWeights = {
  waitForAccessory: 10,
  walkMetre: 0.1,
  downwindFirstKnot: 0.2,
  powerMetre: 0.2,
  againstHabit: 1,
  source: { basis: "invented", text: "weights of this test" },
};
const nothing: OrderWeights = {
  ...weights,
  waitForAccessory: 0,
  walkMetre: 0,
  downwindFirstKnot: 0,
  powerMetre: 0,
  againstHabit: 0,
};

/** Four engines numbered from port; hydraulics on 3, generators on 2 and 3. */
const four: OrderCase = {
  engines: [
    { n: 1, x: 8, y: -10, accessories: ["vacuum"] },
    { n: 2, x: 6, y: -4.5, accessories: ["generator"] },
    { n: 3, x: 6, y: 4.5, accessories: ["generator", "hydraulicPump"] },
    { n: 4, x: 8, y: 10, accessories: ["vacuum"] },
  ],
  mustPrecede: [],
  needs: [],
  powerAccessory: "generator",
  receptacle: { x: 10, y: 1 },
  wind: null,
  headingDeg: 0,
  habit: [3, 4, 2, 1],
  weights,
  walk: () => 0,
};

const orderOf = (advice: OrderAdvice) => advice.best.order;
const advise = (change: Partial<OrderCase>) => must(adviseOrder({ ...four, ...change }));

describe("one part at a time", () => {
  it("[MOD-76] the field's habit is kept if nothing else decides, and the advice says so", () => {
    const advice = advise({ weights: { ...nothing, againstHabit: 1 } });
    expect(orderOf(advice)).toEqual([3, 4, 2, 1]);
    expect(advice.best.cost).toBe(0);
    expect(advice.reasons).toContainEqual({ code: "asUsual" });
    expect(advice.firsts.map((f) => f.extra)).toEqual([3, 2, 0, 1]);
  });

  it("[MOD-76] the engine with the brakes' pump comes first when that is what is needed (single pump on No. 3, as wartime manuals have it)", () => {
    const advice = advise({
      needs: [{ accessory: "hydraulicPump", weight: 1 }],
      habit: [1, 2, 3, 4],
      weights: { ...nothing, waitForAccessory: 10, againstHabit: 1 },
    });
    expect(orderOf(advice)).toEqual([3, 1, 2, 4]);
    expect(advice.best.steps[0]?.alive).toEqual(["generator", "hydraulicPump"]);
    expect(advice.best.steps.at(-1)?.alive).toEqual(["generator", "hydraulicPump", "vacuum"]);
    expect(advice.reasons).toContainEqual({
      code: "brings",
      engine: 3,
      accessory: "hydraulicPump",
      place: 1,
    });
    // Waiting one start for it would cost 10; two pairs against the habit cost 2.
    expect(advice.reasons).toContainEqual({ code: "betterThanUsual", saved: 18, most: "accessories" });
  });

  it("[MOD-76] an accessory that no engine drives changes nothing and is named", () => {
    const advice = advise({ needs: [{ accessory: "cabinPump", weight: 5 }] });
    expect(advice.best.totals.accessories).toBe(0);
    expect(advice.reasons).toContainEqual({ code: "nobodyBrings", accessory: "cabinPump" });
  });

  it("[MOD-76] upwind engines first, on the side the wind comes from", () => {
    const windOnly = { weights: { ...nothing, downwindFirstKnot: 1 } };
    const starboard = advise({ ...windOnly, wind: { fromDeg: 90, speed: 10 } });
    expect(orderOf(starboard)).toEqual([4, 3, 2, 1]);
    expect(starboard.reasons).toContainEqual({
      code: "upwindFirst",
      from: "starboard",
      crosswindKt: expect.closeTo(10, 9),
      turned: 0,
    });
    expect(orderOf(advise({ ...windOnly, wind: { fromDeg: 90, speed: 10 }, headingDeg: 180 }))).toEqual([
      1, 2, 3, 4,
    ]);
    // 30 degrees off the nose: half the wind, two reversed pairs at 5 kt each.
    const forced = advise({
      ...windOnly,
      wind: { fromDeg: 30, speed: 10 },
      mustPrecede: [{ before: 2, after: 4 }],
    });
    expect(forced.best.totals.wind).toBeCloseTo(10, 9);
  });

  it("[MOD-76] before any generator runs the engine nearest the receptacle is cheapest", () => {
    const advice = advise({ weights: { ...nothing, powerMetre: 1 } });
    expect(orderOf(advice)[0]).toBe(3);
    expect(advice.best.totals.power).toBeCloseTo(Math.hypot(4, 3.5), 9);
    expect(advice.reasons).toContainEqual({
      code: "power",
      engine: 3,
      metres: expect.closeTo(5.315, 3),
      nearest: true,
    });
  });

  it("[MOD-76] the guard's walk is counted along the whole order", () => {
    const y = new Map(four.engines.map((e) => [e.n, e.y]));
    const walk: OrderCase["walk"] = (from, to) =>
      Math.abs((y.get(to) ?? 0) - (from === null ? -20 : (y.get(from) ?? 0)));
    const advice = advise({ walk, weights: { ...nothing, walkMetre: 1 } });
    expect(orderOf(advice)).toEqual([1, 2, 3, 4]);
    expect(advice.reasons).toContainEqual({ code: "walk", metres: 30, habitMetres: 24.5 + 5.5 + 14.5 + 5.5 });
  });
});

describe("hard limits", () => {
  it("[MOD-75, MOD-76] precedence comes before everything else; a circle is refused and named", () => {
    const advice = advise({
      mustPrecede: [
        { before: 1, after: 3 },
        { before: 4, after: 1 },
      ],
    });
    expect(orderOf(advice).indexOf(1)).toBeLessThan(orderOf(advice).indexOf(3));
    expect(orderOf(advice).indexOf(4)).toBeLessThan(orderOf(advice).indexOf(1));
    expect(advice.habit).toBeNull();
    expect(advice.reasons).toContainEqual({ code: "usualImpossible" });
    expect(advice.firsts.find((f) => f.engine === 3)).toEqual({ engine: 3, order: null, extra: null });
    const circle = adviseOrder({
      ...four,
      mustPrecede: [
        { before: 1, after: 2 },
        { before: 2, after: 1 },
      ],
    });
    expect(circle).toMatchObject({ ok: false, circle: expect.arrayContaining([1, 2]) });
  });

  it("[MOD-76] the guard is never sent where it cannot walk, even if walking has no weight", () => {
    const walk: OrderCase["walk"] = (from, to) => (from === 3 && to === 4 ? Number.POSITIVE_INFINITY : 1);
    const advice = advise({ walk, weights: { ...nothing, againstHabit: 1 } });
    expect(orderOf(advice).join()).not.toContain("3,4");
    expect(advice.habit).toBeNull();
    expect(adviseOrder({ ...four, walk: () => Number.POSITIVE_INFINITY }).ok).toBe(false);
    expect(adviseOrder({ ...four, engines: [] }).ok).toBe(false);
  });
});

describe("against every order tried", () => {
  const accessory = fc.constantFrom("generator", "hydraulicPump", "vacuum");
  const random = fc.integer({ min: 2, max: 6 }).chain((n) =>
    fc.record({
      accessories: fc.array(fc.uniqueArray(accessory, { maxLength: 2 }), { minLength: n, maxLength: n }),
      xs: fc.array(fc.integer({ min: 4, max: 9 }), { minLength: n, maxLength: n }),
      pairs: fc.array(fc.tuple(fc.integer({ min: 1, max: n }), fc.integer({ min: 1, max: n })), {
        maxLength: 3,
      }),
      wind: fc.option(
        fc.record({ fromDeg: fc.integer({ min: 0, max: 359 }), speed: fc.integer({ min: 0, max: 30 }) }),
      ),
      habit: fc.shuffledSubarray(
        Array.from({ length: n }, (_, i) => i + 1),
        { minLength: n },
      ),
    }),
  );

  const permutations = (list: readonly number[]): number[][] =>
    list.length === 0
      ? [[]]
      : list.flatMap((x) => permutations(list.filter((y) => y !== x)).map((p) => [x, ...p]));

  /** Returns the cost of an order, written from the rule's words and not from the model's code. */
  function plainCost(c: OrderCase, order: readonly number[]): number {
    const engine = (n: number) => c.engines.find((e) => e.n === n) as OrderCase["engines"][number];
    const cross = c.wind ? c.wind.speed * Math.sin(((c.wind.fromDeg - c.headingDeg) * Math.PI) / 180) : 0;
    let cost = 0;
    order.forEach((n, i) => {
      const done = order.slice(0, i);
      const alive = new Set(done.flatMap((d) => engine(d).accessories));
      for (const need of c.needs) {
        const possible = c.engines.some((e) => e.accessories.includes(need.accessory));
        if (possible && !alive.has(need.accessory)) cost += c.weights.waitForAccessory * need.weight;
      }
      cost += c.weights.walkMetre * c.walk(done.at(-1) ?? null, n, done);
      if (!alive.has(c.powerAccessory)) {
        cost += c.weights.powerMetre * Math.hypot(engine(n).x - c.receptacle.x, engine(n).y - c.receptacle.y);
      }
      for (const later of order.slice(i + 1)) {
        if ((engine(later).y - engine(n).y) * cross > 0)
          cost += c.weights.downwindFirstKnot * Math.abs(cross);
        if (c.habit.indexOf(later) < c.habit.indexOf(n)) cost += c.weights.againstHabit;
      }
    });
    return cost;
  }

  it("[MOD-76] is the cheapest of all permutations, with the right extra cost of each other first engine and parts that add up", () => {
    fc.assert(
      fc.property(random, ({ accessories, xs, pairs, wind, habit }) => {
        const question: OrderCase = {
          ...four,
          engines: xs.map((x, i) => ({
            n: i + 1,
            x,
            y: 4 * i - 2 * xs.length,
            accessories: accessories[i] ?? [],
          })),
          mustPrecede: pairs.map(([before, after]) => ({ before, after })),
          needs: [
            { accessory: "hydraulicPump", weight: 2 },
            { accessory: "vacuum", weight: 1 },
          ],
          wind,
          habit,
          walk: (from, to, running) => Math.abs((from ?? 0) - to) * 3 + running.length * (to % 3),
        };
        const orders = permutations(question.engines.map((e) => e.n)).filter((o) =>
          pairs.every(([a, b]) => o.indexOf(a) < o.indexOf(b)),
        );
        const advice = adviseOrder(question);
        expect(advice.ok).toBe(orders.length > 0);
        if (!advice.ok) return;
        const { best, firsts, habit: usual } = advice.value;
        const least = Math.min(...orders.map((o) => plainCost(question, o)));
        expect(best.cost).toBeCloseTo(least, 6);
        expect(plainCost(question, best.order)).toBeCloseTo(least, 6);
        expect(pairs.every(([a, b]) => best.order.indexOf(a) < best.order.indexOf(b))).toBe(true);
        expect(Object.values(best.totals).reduce((a, b) => a + b, 0)).toBeCloseTo(best.cost, 6);
        for (const { engine, extra, order } of firsts) {
          const begun = orders.filter((o) => o[0] === engine).map((o) => plainCost(question, o));
          if (begun.length === 0) expect(extra).toBeNull();
          else expect(extra).toBeCloseTo(Math.min(...begun) - least, 6);
          if (order) expect(order[0]).toBe(engine);
        }
        if (usual) expect(usual.cost).toBeGreaterThanOrEqual(best.cost - 1e-9);
      }),
      { seed: 76, numRuns: 60 },
    );
  });
});

describe("with the ground itself", () => {
  const type = { engines: four.engines, propeller: { diameter: 4 } };
  const hubOf = (n: number) => propellerOf(type, n) as Propeller;
  const ground = {
    type,
    waits: { x: -5, y: 0 },
    rule: { standOff: 1.2, ahead: 1, aheadMost: 10 },
    closedBy: (n: number) => {
      const zone = blastZone(hubOf(n), { speedMs: 30, diameterM: 2.83 }, 13.4, FREE_JET);
      return [turningArc(hubOf(n), 1), ...(zone ? [zone.polygon] : [])];
    },
  };

  it("[MOD-72, MOD-76] the guard walks around ahead of turning engines, never shorter than the straight line", () => {
    const walk = must(guardWalks(ground));
    const straight = walk(null, 1, []);
    expect(straight).toBeCloseTo(Math.hypot(7 + 5, 13.2), 9);
    expect(walk(3, 2, [3])).toBeGreaterThanOrEqual(9 + 2 * 3.2 - 1e-9);
    expect(walk(null, 9, [])).toBe(Number.POSITIVE_INFINITY);
    // From beside engine 4 to beside engine 2 with 3 and 4 turning: past both arcs.
    expect(walk(4, 2, [3, 4])).toBeGreaterThan(walk(4, 2, [4]) - 1e-9);
  });

  it("[MOD-76] gives a whole order for eight engines, each once", () => {
    const engines = Array.from({ length: 8 }, (_, i) => ({
      n: i + 1,
      x: 6 + Math.abs(i - 3.5),
      y: 6 * (i - 3.5),
      accessories: i === 5 ? ["generator", "hydraulicPump"] : ["generator"],
    }));
    const eight = { engines, propeller: { diameter: 4 } };
    const walk = must(
      guardWalks({
        ...ground,
        type: eight,
        closedBy: (n) => [turningArc(propellerOf(eight, n) as Propeller, 1)],
      }),
    );
    const advice = must(
      adviseOrder({
        ...four,
        engines,
        walk,
        habit: [4, 5, 3, 6, 2, 7, 1, 8],
        needs: [{ accessory: "hydraulicPump", weight: 3 }],
      }),
    );
    expect([...advice.best.order].sort()).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
    expect(advice.best.order[0]).toBe(6);
    expect(advice.firsts.every((f) => f.extra !== null && f.extra >= 0)).toBe(true);
  });
});
