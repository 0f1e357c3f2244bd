import { leavesPermitNothing } from "../leaves/permissionEnds.ts";
import { oilLimitsAt } from "../models/oil/oilBands.ts";
import { starterDutyAt } from "../models/starter.ts";
import type { SessionEvent } from "../protocol/events.ts";
import type { SessionState } from "../session/state.ts";
import { switchesInDoubt } from "../stopping/switches.ts";
import { airTemperature } from "../weather/air.ts";
import { type Engine, isTurning, type PlainLife, plain } from "./life.ts";
import { isRevoked } from "./unsafe.ts";

const STARTER_USES_KEPT = 12;

/** Returns the state with one engine changed. */
export function withEngine(state: SessionState, n: number, change: (e: Engine) => Engine): SessionState {
  return { ...state, engines: state.engines.map((e) => (e.n === n ? change(e) : e)) };
}

/** Returns the engine with its plain life changed; a fire stays on it. */
export function withLife(engine: Engine, life: PlainLife): Engine {
  return { ...engine, life: engine.life.is === "fire" ? { ...engine.life, under: life } : life };
}

export function starterRested(state: SessionState, n: number): SessionState {
  return withEngine(state, n, (e) => (plain(e.life).is === "cooling" ? withLife(e, { is: "waiting" }) : e));
}

/**
 * Returns the state with the starter engaged in a new attempt. The report that this arc is clear is used up, that it is
 * not stands, every leave ends, and hands on this propeller count no blades any more.
 */
export function crank(
  before: SessionState,
  n: number,
  now: number,
  { cleared, expected }: { cleared: boolean; expected: number | undefined },
): SessionState {
  const state = switchesInDoubt(leavesPermitNothing(before));
  const { [n]: seen, ...others } = state.arcs;
  const arcs = seen?.clear === false ? { ...others, [n]: seen } : others;
  const handling =
    state.handling?.engine === n ? { ...state.handling, turned: true as const } : state.handling;
  return withEngine({ ...state, arcs, handling }, n, (e) => {
    const { onMax } = starterDutyAt(state.type.starter, e.starter, now, airTemperature(state));
    const starter = [
      ...e.starter,
      { on: now, off: null, onMax, ...(expected === undefined ? {} : { expected }) },
    ].slice(-STARTER_USES_KEPT);
    const life: PlainLife = { is: "cranking", since: now, cleared, limitAt: now + onMax, limitSaid: false };
    const { unseen: _before, ...seen } = e;
    return withLife({ ...seen, starter, attempts: e.attempts + 1 }, life);
  });
}

/** Returns the engine with its starter disengaged, if it was engaged. */
export function starterOff(engine: Engine, now: number): Engine {
  const last = engine.starter.at(-1);
  if (!last || last.off !== null) return engine;
  return { ...engine, starter: [...engine.starter.slice(0, -1), { ...last, off: now }] };
}

export function caught(state: SessionState, n: number, now: number): SessionState {
  const { firstIndication, normal } = oilLimitsAt(state.type.oil, airTemperature(state));
  return withEngine(state, n, (e) =>
    withLife(ran(starterOff(e, now), now), {
      is: "caught",
      since: now,
      firstOilAt: null,
      firstDueAt: now + firstIndication.within.value * 1000,
      normalDueAt: now + normal.within.value * 1000,
      firstLateSaid: false,
      normalLateSaid: false,
      ...(isRevoked(e) ? { revoked: true } : {}),
    }),
  );
}

/**
 * Returns the state after an attempt was given up. If the starter was engaged, it cools for as long as its ladder says.
 */
export function abandonStart(state: SessionState, n: number, event: SessionEvent): SessionState {
  const now = event.at;
  return withEngine(state, n, (engine) => {
    const e = stoppedBy(engine, event);
    const off = starterOff(e, now);
    if (plain(e.life).is !== "cranking") return withLife(off, { is: "waiting" });
    const until = starterDutyAt(state.type.starter, off.starter, now, airTemperature(state)).permittedAt;
    return withLife(off, { is: "cooling", since: now, until });
  });
}

export function shutDown(state: SessionState, n: number, event: SessionEvent, reason: string): SessionState {
  const now = event.at;
  return withEngine(state, n, (engine) => {
    const e = stoppedBy(engine, event);
    const ranNow = plain(e.life).is === "cranking" ? e : ran(e, now);
    return withLife(starterOff(ranNow, now), { is: "shutDown", since: now, reason });
  });
}

/** Returns the engine with who reported it stopped: the same person is no second witness of its propeller. */
function stoppedBy(engine: Engine, { actor }: SessionEvent): Engine {
  if (!isTurning(engine.life) || actor.kind !== "person") return engine;
  const { id: person, device, name } = actor;
  return { ...engine, unseen: { stoppedBy: { person, device, name } } };
}

/** Returns the engine after it ran: no blade count is due until the type's interval has passed. */
function ran(engine: Engine, now: number): Engine {
  const { warmUp: _warmed, runUp: _ranUp, idleStep: _idled, ...rest } = engine;
  return { ...rest, lastRanAt: now, blades: null };
}
