import type { Attribution } from "../../../shared/session/attribution.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import { TYPE } from "../model.ts";
import { granted, hasStop, type Invariant, lifeOf, own, type Transition } from "./invariant.ts";

const { timing, starter, brakePressure, groundPower } = TYPE;
const CLOCK_SLACK = 1000;
const REST = (starter.ladder[0]?.rest.value ?? 0) * 1000;

const fresh = (said: Attribution | null | undefined, seconds: number, now: number) =>
  said !== null && said !== undefined && now < said.at + seconds * 1000;

/** Returns whether the reports themselves meet every condition of a clearance for an engine. */
function ground(state: SessionState, n: number, now: number): boolean {
  const { guard, brakes, chocks } = state;
  const arc = state.arcs[n];
  return (
    guard?.engine === n &&
    fresh(guard, timing.guardInPlace.value, now) &&
    arc?.clear === true &&
    fresh(arc, timing.arcClear.value, now) &&
    (setAside(state, n) ||
      (brakes?.set === true &&
        (brakes.pressure?.value ?? 0) >= brakePressure.atLeast.value &&
        fresh(brakes, timing.brakes.value, now))) &&
    chocks?.in === true
  );
}

/**
 * Returns whether two people on two devices set the brakes aside for an engine in this epoch. No other condition can be
 * set aside here.
 */
function setAside(state: SessionState, n: number): boolean {
  return state.overrides.some(
    (o) =>
      o.condition === "brakesSet" &&
      o.engine === n &&
      o.second !== null &&
      o.second.person !== o.first.person &&
      o.second.at <= o.first.at + timing.override.value * 1000 &&
      o.epoch === state.epoch,
  );
}

function powered(state: SessionState, now: number): boolean {
  const power = state.groundPower;
  return (
    power.is === "on" &&
    power.volts.value >= groundPower.steadyMin.value &&
    power.volts.value <= groundPower.steadyMax.value &&
    fresh(power.by, timing.groundPower.value, now)
  );
}

function crewed(state: SessionState): boolean {
  return Object.values(state.posts).every((holder) => holder?.briefed === true);
}

/** Returns true if no other engine is cranking, unsettled or on fire. */
function othersQuiet(state: SessionState, n: number): boolean {
  return state.engines.every(
    (e) => e.n === n || !["clear", "cranking", "caught", "running", "fire"].includes(e.life.is),
  );
}

/** Applies `check` to every engine with a valid clearance after the step. */
function eachClear(
  { step, now }: Transition,
  check: (state: SessionState, n: number, now: number) => boolean,
) {
  const state = step.state;
  for (const e of state.engines) {
    if (lifeOf(e).is === "clear" && !check(state, e.n, now)) return false;
  }
  return true;
}

/** Returns the engine that the step recorded as cranked on a clearance; null for one on fire or seen turning. */
function cranked({ before, step, move }: Transition): number | null {
  if (move.is !== "act" || move.action.type !== "send" || move.action.kind !== "cranking") return null;
  const fact = own(step)?.fact;
  if (fact?.type !== "sent" || fact.kind !== "cranking") return null;
  const n = move.action.engine ?? 0;
  return before.engines[n - 1]?.life.is === "fire" ? null : n;
}

export const CLEARANCE: readonly Invariant[] = [
  {
    id: "I1",
    text: "at most one clearance stands, and none while another engine turns up or is unsettled",
    holds: (t) => eachClear(t, othersQuiet),
  },
  {
    id: "I2",
    text: "no clearance stands while a hold, cut or fire does",
    holds: (t) => eachClear(t, (state) => !hasStop(state)),
  },
  {
    id: "I3",
    text: "a clearance stands only on a guard there, an arc clear, brakes set and chocks in, each said lately",
    holds: (t) => eachClear(t, ground),
  },
  {
    id: "S1",
    text: "a clearance stands only on power in range, every post held and briefed, and a rested starter",
    holds: (t) =>
      eachClear(t, (state, n, now) => {
        const last = state.engines[n - 1]?.starter.at(-1);
        const rested = last === undefined || (last.off !== null && now >= last.off + REST);
        return powered(state, now) && crewed(state) && rested;
      }),
  },
  {
    id: "S8",
    text: "nobody has hands on a propeller, and no defect bars the engine, while a clearance stands or an engine cranks on one",
    holds: (t) => {
      const n = cranked(t);
      const safe = (state: SessionState, engine: number) =>
        state.handling === null && !state.defects.some((d) => d.barsStart && d.engine === engine);
      return eachClear(t, safe) && (n === null || safe(t.before, n));
    },
  },
  {
    id: "S10",
    text: "no clearance stands while people may be at the aircraft on leave, nor while a drill bars its engine",
    holds: (t) =>
      eachClear(
        t,
        (state, n) => (state.leavesOut ?? []).length === 0 && !state.drills.some((run) => run.engine === n),
      ),
  },
  {
    id: "I4",
    text: "a clearance never outlives its time, and its time is the type's",
    holds: (t) =>
      t.step.state.engines.every((e) => {
        const life = lifeOf(e);
        if (life.is !== "clear") return true;
        const { expiresAt } = life.clearance;
        return t.now < expiresAt && expiresAt <= Math.max(t.now, life.since) + timing.clearance.value * 1000;
      }),
  },
  {
    id: "S2",
    text: "an engine is cranked only on its own clearance, read back, unexpired, with everything it stood on still so",
    holds: (t) => {
      const n = cranked(t);
      if (n === null) return true;
      const { before, now, move, step } = t;
      const life = before.engines[n - 1]?.life;
      if (life?.is !== "clear" || move.is !== "act" || move.action.type !== "send") return false;
      const { id, expiresAt, readBackAt, epoch } = life.clearance;
      const named = move.action.ref === undefined || move.action.ref === id;
      const spent = step.state.engines.every((e) => lifeOf(e).is !== "clear");
      const stands = now < expiresAt && readBackAt !== null && epoch === before.epoch && !hasStop(before);
      const meant = move.validUntil === undefined || now <= move.validUntil;
      // A clock that is behind the record by more than its slack cannot say when a clearance ends.
      const told = now >= before.at - CLOCK_SLACK;
      return told && named && spent && stands && meant && ground(before, n, now) && othersQuiet(before, n);
    },
  },
  {
    id: "I5",
    text: "a clearance comes only from the supervisor clearing an engine that was asked for, never from anything's end",
    holds: (t) => {
      const engine = granted(t);
      if (!engine) return true;
      const { move, before, step } = t;
      const asked = before.engines[engine.n - 1];
      const actor = own(step)?.actor;
      return (
        move.is === "act" &&
        move.action.type === "send" &&
        move.action.kind === "clearToStart" &&
        move.action.engine === engine.n &&
        asked?.life.is === "requested" &&
        actor?.kind === "person" &&
        actor.id === before.posts.supervisor?.id
      );
    },
  },
  {
    id: "I6",
    text: "epochs never fall, every new clearance has a higher fence, and stops, posts and upsets open a new epoch",
    holds: (t) => {
      const { before, step, move } = t;
      const after = step.state;
      if (after.epoch < before.epoch) return false;
      const engine = granted(t);
      if (engine && engine.fence <= (before.engines[engine.n - 1]?.fence ?? 0)) return false;
      const stops = after.holds.length + after.cuts.length + after.fires.length;
      const more = stops > before.holds.length + before.cuts.length + before.fires.length;
      const fact = own(step)?.fact.type;
      const opens =
        more || fact === "postTaken" || fact === "postLeft" || move.is === "restart" || move.is === "clock";
      return !opens || step.events.length === 0 || after.epoch > before.epoch;
    },
  },
  {
    id: "I7",
    text: "a read-back that names another engine, or comes from another post, is never taken: the clearance ends or is unread",
    holds: ({ before, step, move }) => {
      if (move.is !== "act" || move.action.type !== "answer" || move.action.answer !== "readBack")
        return true;
      const { signal, engine } = move.action;
      const mine = before.posts.cockpit?.id === move.by.id && before.posts.cockpit.device === move.by.device;
      return step.state.engines.every((e, i) => {
        const life = lifeOf(e);
        if (life.is !== "clear" || life.clearance.id !== signal) return true;
        if (engine !== e.n) return !mine;
        const old = before.engines[i]?.life;
        const was = old?.is === "clear" ? old.clearance.readBackAt : null;
        return mine || life.clearance.readBackAt === was;
      });
    },
  },
  {
    id: "I24",
    text: "after a restart or a step of the clock no clearance or authority stands, and the same stops do",
    holds: ({ before, step, move }) => {
      if (move.is !== "restart" && move.is !== "clock") return true;
      const after = step.state;
      if (after.stage === "closed" || after.stage === "abandoned") return true;
      return (
        after.engines.every((e) => lifeOf(e).is !== "clear") &&
        Object.values(after.authorities).every((a) => a === null || a.epoch !== after.epoch) &&
        before.holds.every((h) => after.holds.includes(h)) &&
        before.cuts.every((c) => after.cuts.includes(c)) &&
        before.fires.every((f) => after.fires.includes(f))
      );
    },
  },
];
