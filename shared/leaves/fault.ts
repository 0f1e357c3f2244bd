import { type Engine, isTurning, plain } from "../engine/life.ts";
import { type Service, type SessionState, stopOpen } from "../session/state.ts";
import { refuse, type Verdict } from "../session/verdict.ts";
import { unmetForService } from "./conditions.ts";

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
  const unsafe = service === "handlePropeller" ? handlingFault(state, engine) : null;
  if (unsafe) return unsafe;
  const unmet = unmetForService(state, service, now);
  return unmet.length === 0 ? null : refuse("conditionsUnmet", { unmet });
}

function handlingFault(state: SessionState, engine: number | null): Verdict | null {
  const hands = state.handling ?? state.standing?.hands[0];
  if (hands) return refuse("alreadyDone", { engine: hands.engine });
  const unsafe = state.engines.find(
    (e: Engine) =>
      e.life.is === "clear" || plain(e.life).is === "cranking" || (e.n === engine && isTurning(e.life)),
  );
  return unsafe ? refuse("wrongEngineState", { engine: unsafe.n, found: unsafe.life.is }) : null;
}
