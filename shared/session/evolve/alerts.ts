import type { FactOf, SessionEvent } from "../../protocol/events.ts";
import { type Alert, type AlertKind, type PlainLife, plain, type SessionState } from "../state.ts";
import { withEngine, withLife } from "./engines.ts";

/** Alerts come, are acknowledged by each post for itself, and go when both ended and acknowledged. */
export function evolveAlert(
  state: SessionState,
  event: SessionEvent,
  fact: FactOf<"alertRaised" | "alertAcknowledged" | "alertEnded">,
): SessionState {
  switch (fact.type) {
    case "alertRaised": {
      const alert: Alert = {
        id: event.seq,
        kind: fact.kind as AlertKind,
        engine: fact.engine ?? null,
        ref: fact.ref ?? null,
        to: fact.to,
        at: event.at,
        active: true,
        acknowledged: [],
      };
      return markSaid({ ...state, alerts: [...state.alerts, alert] }, alert);
    }
    case "alertAcknowledged":
      return settled({
        ...state,
        alerts: state.alerts.map((a) =>
          a.id === fact.alert ? { ...a, acknowledged: [...a.acknowledged, fact.post] } : a,
        ),
      });
    case "alertEnded":
      return settled({
        ...state,
        alerts: state.alerts.map((a) => (a.id === fact.alert ? { ...a, active: false } : a)),
      });
  }
}

/** Alerts that ended and that every held post acknowledged are gone. */
export function settled(state: SessionState): SessionState {
  const needed = (a: Alert) => a.to.filter((p) => state.posts[p] !== null);
  return {
    ...state,
    alerts: state.alerts.filter((a) => a.active || !needed(a).every((p) => a.acknowledged.includes(p))),
  };
}

/** A limit is said once an attempt: the engine remembers that it was. */
function markSaid(state: SessionState, alert: Alert): SessionState {
  const mark = (life: PlainLife): PlainLife => {
    if (life.is === "cranking" && alert.kind === "starterLimit") return { ...life, limitSaid: true };
    if (life.is !== "caught") return life;
    if (alert.kind === "oilFirstLate") return { ...life, firstLateSaid: true };
    return alert.kind === "oilNormalLate" ? { ...life, normalLateSaid: true } : life;
  };
  return alert.engine === null
    ? state
    : withEngine(state, alert.engine, (e) => withLife(e, mark(plain(e.life))));
}
