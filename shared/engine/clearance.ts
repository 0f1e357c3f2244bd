import type { FactOf, SessionEvent } from "../protocol/events.ts";
import { said } from "../session/attribute.ts";
import type { SessionState, Signal } from "../session/state.ts";
import { closeKinds, closeSignal } from "../signals/close.ts";
import { withEngine, withLife } from "./evolve.ts";
import { plain } from "./life.ts";

/** The clearance comes to stand, and the request it answers is done. */
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
          issuedBy: said(event, null),
          expiresAt: fact.expiresAt ?? event.at,
          epoch: state.epoch,
          fence,
          basis: fact.basis ?? [],
          readBackAt: null,
        },
      },
    );
  });
  // Nobody goes to a propeller any more on an older question.
  return closeKinds(closeSignal(granted, fact.ref ?? 0, "done"), ["handlePropeller"], "revoked");
}

/** A clearance died: the engine waits, and must be asked for anew. */
export function voidClearance(state: SessionState, fact: FactOf<"clearanceVoid">): SessionState {
  const next = withEngine(state, fact.engine, (e) =>
    plain(e.life).is === "clear" ? withLife(e, { is: "waiting" }) : e,
  );
  const is = fact.cause === "expired" || fact.cause === "readBackWrong" ? fact.cause : "revoked";
  return endedAs(closeSignal(next, fact.clearance, is), fact.clearance, is);
}

/** The clearance was used: ended by its use. */
export function spendClearance(state: SessionState, id: number): SessionState {
  return endedAs(closeSignal(state, id, "done"), id, "done");
}

/** Its read-back may have closed the signal long before: how the clearance ended is what counts. */
function endedAs(state: SessionState, id: number, is: Exclude<Signal["is"], "open">): SessionState {
  return {
    ...state,
    ended: state.ended.map((s) => (s.id === id && s.is === "answered" ? { ...s, is } : s)),
  };
}
