import { cpus } from "node:os";
import { levenbergMarquardt } from "ml-levenberg-marquardt";
import { demo } from "../../seed/demo-data.ts";
import { figuresOfAircraft, figuresOfEngine } from "../../shared/figures/all.ts";
import { cheapestOrder } from "../../shared/models/order/cheapestOrder.ts";
import { type OrderCase, partsOf } from "../../shared/models/order/orderCost.ts";
import { adviseOrder } from "../../shared/models/order/startOrder.ts";
import { fitWarmUp } from "../../shared/models/warmUp/fit.ts";
import { chance } from "../../shared/partners/chance.ts";
import type { FactOf, SessionEvent } from "../../shared/protocol/events.ts";
import { initialState } from "../../shared/session/initial.ts";

/**
 * Measures the engineering models beside a baseline for the same task in the same run: every permutation for the
 * order search, another library's fit for the warm-up. Compares the answers first, then reports medians.
 */
export function benchModels(): boolean {
  console.log(
    `${cpus()[0]?.model ?? "?"}, ${cpus().length} cores, Node ${process.version}; milliseconds, median\n`,
  );
  const search = order();
  const fit = warmUp();
  figures();
  return search && fit;
}

const sum = (parts: object) => Object.values(parts).reduce<number>((a, b) => a + Number(b), 0);

function question(): OrderCase {
  const engines = [-16, -12, -8, -4, 4, 8, 12, 16].map((y, i) => ({
    n: i + 1,
    x: 6 + Math.abs(y) / 8,
    y,
    accessories: i % 3 === 0 ? ["generator"] : i % 3 === 1 ? ["hydraulicPump"] : [],
  }));
  const source = { basis: "invented", text: "for the bench" } as const;
  return {
    engines,
    mustPrecede: [{ before: 5, after: 1 }],
    needs: [{ accessory: "hydraulicPump", weight: 2 }],
    powerAccessory: "generator",
    receptacle: { x: 4, y: -1 },
    wind: { fromDeg: 60, speed: 12 },
    headingDeg: 0,
    habit: [5, 6, 7, 8, 4, 3, 2, 1],
    weights: {
      waitForAccessory: 5,
      walkMetre: 0.2,
      downwindFirstKnot: 0.3,
      powerMetre: 0.4,
      againstHabit: 1,
      source,
    },
    walk: (from, to, running) => Math.abs((from ?? 0) - to) * 4 + running.length,
  };
}

function order(): boolean {
  const asked = question();
  const parts = partsOf(asked);
  const after = asked.engines.map((e) =>
    asked.mustPrecede.filter((p) => p.after === e.n).reduce((set, p) => set | (1 << (p.before - 1)), 0),
  );
  const step = (soFar: number, placed: number, last: number | null, next: number) =>
    soFar + sum(parts(placed, last, next));
  const exact = () => cheapestOrder({ count: 8, after, step })?.cost ?? Number.NaN;
  const brute = () => cheapestOfAll(8, after, step);
  const same = Math.abs(exact() - brute()) < 1e-9;
  row("order of 8 engines, over sets", median(exact, 40));
  row("order of 8 engines, every permutation", median(brute, 9));
  row(
    "advice on 8 engines with reasons, anew",
    median(() => adviseOrder(question()), 9),
  );
  console.log(same ? "  the two orders cost the same" : "  THE TWO ORDERS DIFFER");
  return same;
}

function cheapestOfAll(
  count: number,
  after: readonly number[],
  step: (soFar: number, placed: number, last: number | null, next: number) => number,
): number {
  const all = (1 << count) - 1;
  const from = (soFar: number, placed: number, last: number | null): number => {
    if (placed === all) return soFar;
    let best = Number.POSITIVE_INFINITY;
    for (let next = 0; next < count; next += 1) {
      if (placed & (1 << next) || (after[next] ?? 0) & ~placed) continue;
      best = Math.min(best, from(step(soFar, placed, last, next), placed | (1 << next), next));
    }
    return best;
  };
  return from(0, 0, null);
}

/** Returns 600 readings, one per second, each rounded and a little off. */
function readings() {
  return Array.from({ length: 600 }, (_, t) => {
    const exact = 90 - 75 * Math.exp(-t / 260);
    return { seconds: t, temperature: Math.round(exact + chance(11, t) - 0.5) };
  });
}

function warmUp(): boolean {
  const series = readings();
  const data = { x: series.map((r) => r.seconds), y: series.map((r) => r.temperature) };
  const ours = () => {
    const fit = fitWarmUp(series);
    return fit.ok && fit.value ? fit.value.steady : Number.NaN;
  };
  const theirs = () =>
    levenbergMarquardt(
      data,
      ([steady = 0, rise = 0, rate = 0]) =>
        (t) =>
          steady - rise * Math.exp(-rate * t),
      // The fit starts close to the answer, because it does not converge otherwise.
      { initialValues: [80, 60, 0.005], maxIterations: 100, damping: 0.01, gradientDifference: 1e-6 },
    ).parameterValues[0] ?? Number.NaN;
  row("\nwarm-up of 600 readings, no start given", median(ours, 40));
  row("ml-levenberg-marquardt, a good start given", median(theirs, 9));
  const apart = Math.abs(ours() - theirs());
  console.log(`  steady temperatures ${apart.toExponential(1)} degrees apart`);
  return apart < 0.05;
}

function figures(): void {
  const [type] = demo.types;
  if (!type) return;
  const nobody = { cockpit: null, fireGuard: null, groundPower: null, supervisor: null };
  const fact: FactOf<"planned"> = {
    type: "planned",
    aircraft: "bench",
    place: "bench",
    aircraftType: type,
    order: type.defaultOrder,
    powerSource: "batteries",
    crew: nobody,
  };
  const event: SessionEvent = {
    v: 1,
    session: "bench",
    seq: 1,
    at: 0,
    actor: { kind: "system" },
    command: null,
    digest: null,
    clientAt: null,
    cause: null,
    fact,
  };
  const state = initialState(event, fact);
  row(
    "\nall figures of one engine",
    median(() => figuresOfEngine(state, 1, 60_000), 40),
  );
  row(
    "all figures of the aircraft, advice included",
    median(() => figuresOfAircraft(state, 60_000), 20),
  );
}

/** Returns the median time of one call in milliseconds, after as many calls to warm up. */
function median(work: () => unknown, times: number): number {
  const took = Array.from({ length: times * 2 }, () => {
    const begun = performance.now();
    work();
    return performance.now() - begun;
  }).slice(times);
  return took.sort((a, b) => a - b)[Math.floor(times / 2)] ?? Number.NaN;
}

function row(name: string, ms: number): void {
  console.log(`${name.padEnd(48)}${ms.toFixed(3).padStart(10)}`);
}
