import { type Engine, isTurning, plain } from "../engine/life.ts";
import { engineOf, type SessionState, stopOpen } from "../session/state.ts";
import { refuse, type Verdict } from "../session/verdict.ts";
import { unmetForService } from "./conditions.ts";
import type { Service } from "./services.ts";

/**
 * Returns what prevents a leave for a service now: a stop, a condition of the service, or, for hands on a propeller, an
 * engine that turns or is about to. The leave for hands states that ignition is off.
 */
export function authorityFault(
  state: SessionState,
  service: Service,
  now: number,
  engine: number | null,
): Verdict | null {
  if (stopOpen(state)) return refuse("stopOpen");
  const unsafe = service === "handlePropeller" ? handlingFault(state, engine, now) : null;
  if (unsafe) return unsafe;
  const unmet = unmetForService(state, service, now, engine ?? 0);
  return unmet.length === 0 ? null : refuse("conditionsUnmet", { unmet });
}

function handlingFault(state: SessionState, n: number | null, now: number): Verdict | null {
  const hands = state.handling ?? state.standing?.hands[0];
  if (hands) return refuse("alreadyDone", { engine: hands.engine });
  const unsafe = state.engines.find(
    (e: Engine) =>
      e.life.is === "clear" || plain(e.life).is === "cranking" || (e.n === n && isTurning(e.life)),
  );
  if (unsafe) return refuse("wrongEngineState", { engine: unsafe.n, found: unsafe.life.is });
  const engine = n === null ? undefined : engineOf(state, n);
  const waits = engine ? handsFrom(state, engine) - now : 0;
  return waits > 0 ? refuse("tooSoon", { engine: n ?? 0, found: `${Math.ceil(waits / 1000)} s` }) : null;
}

/**
 * Returns the server milliseconds from which hands may go to the propeller: the time of its last crank or run plus the
 * wait of the type.
 */
function handsFrom(state: SessionState, engine: Engine): number {
  const limit = state.type.timing.handsAfterStart;
  const last = Math.max(engine.starter.at(-1)?.off ?? 0, engine.lastRanAt ?? 0);
  return limit === undefined || last === 0 ? 0 : last + limit.value * 1000;
}
