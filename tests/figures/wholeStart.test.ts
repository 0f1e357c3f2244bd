import { describe, expect, it } from "vitest";
import { personAt, Stage } from "../../seed/crew/stage.ts";
import { demo } from "../../seed/demo-data.ts";
import { plain } from "../../shared/engine/life.ts";
import { figuresOfAircraft, figuresOfEngine } from "../../shared/figures/all.ts";
import type { Figure } from "../../shared/figures/figure.ts";
import { noiseFigures } from "../../shared/figures/noise.ts";
import { noiseLogOf } from "../../shared/figures/noiseLog.ts";
import { evolve } from "../../shared/session/evolve.ts";
import type { SessionState } from "../../shared/session/state.ts";
import { figures as words } from "../../shared/words/en/figures.ts";
import { playOut } from "../seed/stage.ts";

const FOUR = demo.types.find((t) => t.engines.length === 4);
if (!FOUR) throw new Error("the demo has a four-engine type");

/** Returns every state of one whole start as the scripted partners play it. */
function wholeStart(powerSource: "groundPower" | "batteries" = "groundPower") {
  const stage = new Stage(FOUR as NonNullable<typeof FOUR>, powerSource);
  stage.everyoneClaims();
  expect(playOut(stage, { seed: 3, pace: 1, cart: "Bal Maiden" })).toBeNull();
  const states: SessionState[] = [];
  let state: SessionState | null = null;
  for (const event of stage.events) {
    state = evolve(state, event);
    states.push(state);
  }
  return { states, events: stage.events };
}

const { states, events } = wholeStart();
const find = (state: SessionState, id: string, now = state.at): Figure | undefined =>
  [...state.engines.flatMap((e) => figuresOfEngine(state, e.n, now)), ...figuresOfAircraft(state, now)].find(
    (f) => f.id === id,
  );
const stateWhere = (test: (s: SessionState) => boolean): SessionState => {
  const found = states.find(test);
  if (!found) throw new Error("the start never came to such a state");
  return found;
};
const input = (f: Figure | undefined, name: string) => f?.inputs.find((i) => i.name === name)?.value;

describe("figures", () => {
  it("[FIG-1] each opens to inputs with their source and age, an equation and its source, and has words", () => {
    const seen = new Set<string>();
    // Few states show the oil timers: they last from the catch to the first reading.
    const shown = (s: SessionState) => s.engines.some((e) => plain(e.life).is === "caught");
    for (const state of states.filter((s, i) => i % 4 === 0 || shown(s))) {
      const all = [
        ...state.engines.flatMap((e) => figuresOfEngine(state, e.n, state.at)),
        ...figuresOfAircraft(state, state.at),
      ];
      expect(new Set(all.map((f) => f.id)).size).toBe(all.length);
      for (const f of all) {
        seen.add(f.words);
        expect(Object.keys(words.names), f.words).toContain(f.words);
        expect(words.verdicts[f.verdict], f.id).toBeDefined();
        expect(f.equation, f.id).not.toBe("");
        expect(f.source, f.id).not.toBe("");
        expect(f.inputs.length, f.id).toBeGreaterThan(0);
        for (const i of f.inputs) {
          expect(i.source, `${f.id} ${i.name}`).not.toBe("");
          if (i.at !== null) expect(i.at, `${f.id} ${i.name}`).toBeLessThanOrEqual(state.at);
        }
        if (typeof f.value === "number") expect(Number.isFinite(f.value), f.id).toBe(true);
      }
    }
    for (const words of [
      "expectedVolts",
      "seenVolts",
      "starterRest",
      "oil.firstIndication",
      "warmUp",
      "order",
    ]) {
      expect(seen).toContain(words);
    }
  });

  it("[FIG-2] no figure without a value is found good, and an input nobody has read gives no verdict", () => {
    const [first] = states;
    if (!first) throw new Error("a start has a first state");
    // No battery was read and no cart is on, so nobody can say how low the starter will pull the bus.
    expect(find(first, "expectedVolts:3")).toMatchObject({ value: null, verdict: "unknown" });
    for (const state of states) {
      for (const e of state.engines) {
        for (const f of figuresOfEngine(state, e.n, state.at)) {
          if (f.value === null) expect(f.verdict, f.id).not.toBe("good");
        }
      }
    }
  });

  // Ohm's law by hand; wire resistance from AC 43.13-1B Table 11-9, out and back, conductors side by side.
  it("[FIG-3] lowest volts to expect: the cart's volts less breakaway amps through cart and cable", () => {
    const on = stateWhere((s) => s.groundPower.is === "on" && s.stage === "starting");
    const { cart, starter, leastVolts } = on.type.electrical ?? {};
    if (!cart || !starter || !leastVolts || on.groundPower.is !== "on")
      throw new Error("the type has a cart");
    const ohmPer1000Ft: Record<string, number> = { "0": 0.12, "00": 0.09, "000": 0.07, "0000": 0.06 };
    const perFoot =
      (ohmPer1000Ft[cart.size.replace("1/0", "0").replace("2/0", "00").replace("4/0", "0000")] ??
        Number.NaN) / 1000;
    const feet = cart.length.unit === "ft" ? cart.length.value : cart.length.value / 0.3048;
    const ohm = (perFoot * feet) / cart.parallel + (cart.internalOhm?.value ?? 0);
    const volts = on.groundPower.volts.value - starter.breakaway.value * ohm;
    const figure = find(on, "expectedVolts:3");
    expect(figure?.value).toBeCloseTo(volts, 6);
    expect(figure?.verdict).toBe(volts < leastVolts.value ? "bad" : "good");
  });

  it("[FIG-4] after the crank the lowest volts seen stand beside those expected", () => {
    const cranked = stateWhere((s) => s.engines[2]?.starter.at(-1)?.lowest != null);
    const seen = find(cranked, "seenVolts:3");
    const lowest = cranked.engines[2]?.starter.at(-1)?.lowest?.value ?? Number.NaN;
    expect(seen?.value).toBe(lowest);
    expect(input(seen, "difference")).toBeCloseTo(lowest - Number(input(seen, "volts expected")), 9);
  });

  it("[FIG-5] a starter's rest counts down to the moment the ladder permits the next", () => {
    const caught = stateWhere((s) => s.engines[2]?.life.is === "caught");
    const off = caught.engines[2]?.starter.at(-1)?.off ?? 0;
    const rest = Number(find(caught, "starterRest:3", off)?.value);
    expect(rest).toBeGreaterThan(0);
    expect(find(caught, "starterRest:3", off + rest * 1000 - 1)?.verdict).toBe("bad");
    expect(find(caught, "starterRest:3", off + rest * 1000)).toMatchObject({ value: 0, verdict: "good" });
  });

  it("[FIG-6] the oil timers run from the catch, each to its own limit", () => {
    const caught = stateWhere((s) => s.engines[2]?.life.is === "caught");
    const life = caught.engines[2]?.life;
    if (life?.is !== "caught") throw new Error("number 3 has caught");
    const first = find(caught, "oil.firstIndication:3", life.firstDueAt - 2_000);
    expect(first).toMatchObject({ value: 2, verdict: "none" });
    expect(find(caught, "oil.normal:3", life.normalDueAt + 1)).toMatchObject({ value: 0, verdict: "bad" });
  });

  it("[FIG-7] the warm-up says which engine all wait for, and is open at the gates", () => {
    const warming = stateWhere((s) => s.stage === "warmUp");
    expect([1, 2, 3, 4]).toContain(input(find(warming, "warmUp"), "waited for"));
    const open = stateWhere((s) => s.stage === "release");
    expect(find(open, "warmUp")).toMatchObject({ value: 0, verdict: "good", words: "warmUp.open" });
  });

  it("[FIG-8] the order advised names its reasons and what every other first engine costs", () => {
    const starting = stateWhere((s) => s.stage === "starting");
    const order = find(starting, "order");
    expect(String(order?.value).split("-").map(Number).sort()).toEqual([1, 2, 3, 4]);
    expect(order?.inputs.filter((i) => i.name === "because").length).toBeGreaterThan(0);
    const firsts = order?.inputs.filter((i) => i.name.endsWith(" first")) ?? [];
    expect(firsts).toHaveLength(4);
    const costs = firsts.map((f) => f.value).filter((v) => typeof v === "number");
    expect(Math.min(...costs)).toBe(0);
  });

  it("[FIG-8] an order other than advised needs its reason, and keeps the advice with it", () => {
    const stage = new Stage(FOUR as NonNullable<typeof FOUR>, "groundPower");
    stage.everyoneClaims();
    const advised = String(find(stage.state, "order")?.value).split("-").map(Number);
    const other = [...advised].reverse();
    const amend = (order: number[], reason?: string) =>
      stage.do(personAt("supervisor"), { type: "amendPlan", order, ...(reason ? { reason } : {}) });
    expect(amend(other).refusal).toMatchObject({ reason: "missingFigure", found: "reason" });
    expect(amend(other, "a truck stands by number 3").refusal).toBeUndefined();
    expect(stage.state.orderAdvice?.order).toEqual(advised);
    expect(amend(advised).refusal).toBeUndefined();
  });

  // 29 CFR 1910.95 app. A (from memory): D = 100 C / T, T = 8 / 2^((L - 90) / 5).
  it("[FIG-9] noise counts the hours at each post while engines turn, by the published dose", () => {
    const end = states.at(-1)?.at ?? 0;
    const figures = noiseFigures(noiseLogOf(events), [], end);
    expect(figures).toHaveLength(4);
    const guard = figures.find((f) => f.detail === "Partner at fireGuard");
    const hours = Number(
      guard?.inputs.find((i) => i.name.endsWith(": at fire guard, engines turning"))?.value,
    );
    const level = Number(input(guard, "sound at fire guard"));
    expect(hours).toBeGreaterThan(0);
    expect(guard?.value).toBeCloseTo((100 * hours) / (8 / 2 ** ((level - 90) / 5)), 6);
  });

  it("[FIG-10] on batteries alone the starts left are told, or said to be unknown", () => {
    const battery = wholeStart("batteries").states.find((s) => s.stage === "starting");
    if (!battery) throw new Error("the start came to starting");
    const left = find(battery, "startsLeft");
    expect(left).toBeDefined();
    if (left?.value === null) expect(left.verdict).not.toBe("good");
    else expect(Number(left?.value)).toBeGreaterThanOrEqual(0);
  });
});
