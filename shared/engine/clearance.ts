import type { FactOf, SessionEvent } from "../protocol/events.ts";
import { attributionOf } from "../session/attribute.ts";
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
  // An older question must no longer send anybody to a propeller.
  return closeKinds(closeSignal(granted, fact.ref ?? 0, "done"), ["handlePropeller"], "revoked");
}

/** Returns the state after a clearance ended without use: the engine waits, and the cockpit must request again. */
export function voidClearance(state: SessionState, fact: FactOf<"clearanceVoid">): SessionState {
  const next = withEngine(state, fact.engine, (e) =>
    plain(e.life).is === "clear" ? withLife(e, { is: "waiting" }) : e,
  );
  const is = fact.cause === "expired" || fact.cause === "readBackWrong" ? fact.cause : "revoked";
  return endedAs(closeSignal(next, fact.clearance, is), fact.clearance, is);
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
