import { acknowledgeEnds } from "../alerts/evolve.ts";
import type { ConditionReport } from "../protocol/conditionReport.ts";
import type { FactOf, SessionEvent, VoidCause } from "../protocol/events.ts";
import { attributionOf, giverOf } from "../session/attribute.ts";
import type { SessionState, Signal } from "../session/state.ts";
import { closeKinds, closeSignal } from "../signals/close.ts";
import { withEngine, withLife } from "./evolve.ts";
import { plain } from "./life.ts";

/** Returns the state with the clearance valid and the request that it answers done. */
export function grant(state: SessionState, event: SessionEvent, fact: FactOf<"sent">): SessionState {
  const n = fact.engine ?? 0;
  const granted = withEngine(state, n, (e) => {
    if (plain(e.life).is !== "requested") return e;
    const fence = e.fence + 1;
    return withLife(
      { ...e, fence },
      {
        is: "clear",
        since: event.at,
        clearance: {
          id: event.seq,
          issuedBy: attributionOf(event, null),
          expiresAt: fact.expiresAt ?? event.at,
          epoch: state.epoch,
          fence,
          basis: fact.basis ?? [],
          readBackAt: null,
        },
      },
    );
  });
  // "Do not start it" is no longer so: the end of the earlier clearance is over for everybody.
  const known = acknowledgeEnds(granted, n);
  // An older question must no longer send anybody to a propeller.
  return closeKinds(closeSignal(known, fact.ref ?? 0, "done"), ["handlePropeller"], "revoked");
}

/** Returns the fact that a clearance ended without use. */
export function clearanceEnd(
  engine: number,
  clearance: number,
  cause: VoidCause,
  unmet?: ConditionReport[],
): FactOf<"clearanceVoid"> {
  return { type: "clearanceVoid", engine, clearance, cause, ...(unmet ? { unmet } : {}), alerts: true };
}

/** Returns the state after a clearance ended without use: the engine waits, and the cockpit must request again. */
export function voidClearance(
  state: SessionState,
  event: SessionEvent,
  fact: FactOf<"clearanceVoid">,
): SessionState {
  const next = withEngine(state, fact.engine, (e) =>
    plain(e.life).is === "clear" ? withLife(e, { is: "waiting" }) : e,
  );
  const is = fact.cause === "expired" || fact.cause === "readBackWrong" ? fact.cause : "revoked";
  return toBeSaid(endedAs(closeSignal(next, fact.clearance, is), fact.clearance, is), event, fact);
}

/**
 * Returns the state with the end of a clearance left to be said by its alert. Who takes a clearance back knows that it
 * ended; who reads it back wrong may not.
 */
function toBeSaid(state: SessionState, event: SessionEvent, fact: FactOf<"clearanceVoid">): SessionState {
  if (!fact.alerts) return state;
  const { engine, clearance, cause, unmet = [] } = fact;
  const by = cause === "revoked" ? giverOf(event, {}) : null;
  const others = (state.voided ?? []).filter((v) => v.engine !== engine);
  return { ...state, voided: [...others, { id: clearance, engine, cause, unmet, by }] };
}

/** Returns the state after the clearance was used. */
export function spendClearance(state: SessionState, id: number): SessionState {
  return endedAs(closeSignal(state, id, "done"), id, "done");
}

/** The read-back may have closed the signal long before. Its end is shown as the end of the clearance. */
function endedAs(state: SessionState, id: number, is: Exclude<Signal["is"], "open">): SessionState {
  return {
    ...state,
    ended: state.ended.map((s) => (s.id === id && s.is === "answered" ? { ...s, is } : s)),
  };
}
