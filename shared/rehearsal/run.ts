import { isTurning, plain } from "../engine/life.ts";
import { chance } from "../partners/chance.ts";
import { POSTS, type Post } from "../protocol/posts.ts";
import type { FaultKind } from "../protocol/rehearsalFaults.ts";
import { engineOf, isOver, type SessionState } from "../session/state.ts";
import { type Plant, plantOf } from "../simulation/plant.ts";
import {
  type Controls,
  coldAircraft,
  NOTHING_WRONG,
  type Simulated,
  type Wrong,
} from "../simulation/state.ts";
import { stepAircraft } from "../simulation/step.ts";
import { FAULT } from "./faults.ts";
import type { Moment, PlannedFault, RehearsalScript } from "./script.ts";

/** A fault that has begun. Times are seconds of the rehearsal. */
export interface Struck {
  /** Its place among the faults that began, from 1. */
  no: number;
  fault: FaultKind;
  engine: number | null;
  post: Post | null;
  at: number;
  endedAt: number | null;
}

/** A rehearsal's world at a moment: the simulated aircraft, and what went wrong so far. */
export interface Run {
  script: RehearsalScript;
  seed: number;
  plant: Plant;
  sim: Simulated;
  /** Seconds of the rehearsal: time in which it was frozen does not count, and speed counts as often. */
  t: number;
  /** When each moment was seen first, by its name and engine. */
  seen: Readonly<Record<string, number>>;
  /** The faults of the script that were decided, by their place in it. */
  decided: readonly number[];
  struck: readonly Struck[];
  /** The lowest volts of the last crank. */
  lowestVolts: number | null;
}

/** Returns the world as a rehearsal begins. The same script, type and seed give the same. */
export function beginRun(script: RehearsalScript, state: SessionState): Run {
  const seed = state.rehearsal?.seed ?? 0;
  const plant = plantOf(state.type, seed, script.airC);
  const sim = coldAircraft(plant);
  return { script, seed, plant, sim, t: 0, seen: {}, decided: [], struck: [], lowestVolts: null };
}

/** Returns the faults that go on. */
export const going = (run: Run): Struck[] => run.struck.filter((s) => s.endedAt === null);

/** Returns the posts whose panels a fault has cut off now. */
export function cutOff(run: Run): Post[] {
  return POSTS.filter((post) =>
    going(run).some(({ fault, post: whose }) => {
      const { cutsPanels, silences } = FAULT[fault];
      return cutsPanels === true && (silences === "everybody" || whose === post);
    }),
  );
}

/**
 * Returns the world `seconds` later, and the faults that began in between.
 * @param hands what somebody does in the cockpit
 */
export function advance(
  run: Run,
  state: SessionState,
  hands: Controls,
  seconds: number,
): { run: Run; began: Struck[] } {
  const wrong = wrongNow(run);
  const supply = { cart: state.groundPower.is === "on", batteries: true };
  const sim = stepAircraft(run.plant, run.sim, hands, supply, wrong, seconds);
  const t = run.t + seconds;
  const cranks = sim.engines.some((e) => e.starterAmps > 0);
  const fresh = cranks && !run.sim.engines.some((e) => e.starterAmps > 0);
  const lowest = fresh ? sim.busVolts : Math.min(run.lowestVolts ?? sim.busVolts, sim.busVolts);
  const moved = {
    ...run,
    sim,
    t,
    lowestVolts: cranks ? lowest : run.lowestVolts,
    seen: seenNow(run, state, t),
  };
  const ended = {
    ...moved,
    struck: moved.struck.map((s) =>
      s.endedAt === null && isEnded(s, moved, state) ? { ...s, endedAt: t } : s,
    ),
  };
  return isOver(state) ? { run: ended, began: [] } : strike(ended, state);
}

/**
 * Begins a fault now.
 * @param engine the engine that it strikes, if it strikes one
 * @param post the post that it befalls, if it befalls one; null for the usual one
 */
export function throwFault(
  run: Run,
  fault: FaultKind,
  engine: number | null,
  post: Post | null,
): { run: Run; began: Struck } {
  const { about, usualPost } = FAULT[fault];
  const strikes = about === "engine" || fault === "guardLost";
  const began: Struck = {
    ...{ no: run.struck.length + 1, fault, at: run.t, endedAt: null },
    engine: strikes ? engine : null,
    post: about === "post" ? (post ?? usualPost ?? null) : null,
  };
  return { run: { ...run, struck: [...run.struck, began] }, began };
}

function strike(before: Run, state: SessionState): { run: Run; began: Struck[] } {
  let run = before;
  const began: Struck[] = [];
  for (const [i, planned] of before.script.faults.entries()) {
    if (before.decided.includes(i)) continue;
    const engine = engineFor(planned, state);
    const at = before.seen[keyOf(planned.after, engine)];
    if (at === undefined || before.t < at + planned.seconds) continue;
    run = { ...run, decided: [...run.decided, i] };
    if (chance(before.seed, "fault", i) >= planned.chance) continue;
    const next = throwFault(run, planned.fault, engine, planned.post ?? null);
    run = next.run;
    began.push(next.began);
  }
  return { run, began };
}

/** The engine that a planned fault strikes: a type with fewer engines has its last one struck. */
function engineFor({ which }: PlannedFault, { order }: SessionState): number {
  return order[Math.min(which, order.length) - 1] ?? 1;
}

const ENGINE_MOMENTS: readonly Moment[] = ["cleared", "cranking", "caught", "running"];
const keyOf = (moment: Moment, engine: number): string =>
  ENGINE_MOMENTS.includes(moment) ? `${moment}:${engine}` : moment;

function seenNow({ seen }: Run, state: SessionState, t: number): Run["seen"] {
  const now: string[] = ["begun"];
  if (state.groundPower.is === "on") now.push("powerOn");
  if (state.stage === "warmUp") now.push("warmUp");
  for (const engine of state.engines) {
    const { is } = plain(engine.life);
    if (is === "clear") now.push(`cleared:${engine.n}`);
    if (is === "cranking") now.push(`cranking:${engine.n}`);
    if (is === "caught") now.push(`caught:${engine.n}`);
    if (is === "running" || is === "stable") now.push(`running:${engine.n}`);
  }
  const fresh = now.filter((key) => seen[key] === undefined);
  return fresh.length === 0 ? seen : { ...seen, ...Object.fromEntries(fresh.map((key) => [key, t])) };
}

function isEnded({ fault, engine, at }: Struck, run: Run, state: SessionState): boolean {
  const { until } = FAULT[fault];
  const own = engine === null ? undefined : engineOf(state, engine);
  switch (until.is) {
    case "attemptOver":
      return run.t - at > 2 && own !== undefined && !isTurning(own.life);
    case "engineStill":
      return own !== undefined && !isTurning(own.life) && run.t - at > 2;
    case "seconds":
      return run.t - at >= until.s;
    case "never":
      return false;
  }
}

/** Returns what is wrong with the aircraft at this moment, all faults together. */
export function wrongNow(run: Run): Wrong {
  return going(run).reduce<Wrong>((all, { fault, engine }) => {
    const one = FAULT[fault].wrong(engine ?? 0);
    return {
      noOil: [...all.noOil, ...(one.noOil ?? [])],
      hung: [...all.hung, ...(one.hung ?? [])],
      dead: [...all.dead, ...(one.dead ?? [])],
      generatorDead: [...all.generatorDead, ...(one.generatorDead ?? [])],
      vacuumDead: all.vacuumDead || (one.vacuumDead ?? false),
      cart: Math.min(all.cart, one.cart ?? 1),
      brakesBleed: all.brakesBleed || (one.brakesBleed ?? false),
    };
  }, NOTHING_WRONG);
}
