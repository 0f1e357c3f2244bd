import type { FactOf, SessionEvent } from "../protocol/events.ts";
import { attributionOf } from "../session/attribute.ts";
import type { SessionState, Signal } from "../session/state.ts";
import { signalOf } from "./all.ts";
import { closeKinds, keepEnded } from "./close.ts";

/**
 * Returns the state with the signal of an event open. The answer "received" is due only from posts that somebody holds,
 * and not from the recorder of a stop. An answer that must say more is due from its post even while it is vacant.
 */
export function openSignal(before: SessionState, event: SessionEvent, fact: FactOf<"sent">): SessionState {
  const definition = signalOf(fact.kind);
  const stop = definition.class === "stop";
  // A signal that is sent again replaces the earlier one. Stops never replace each other.
  const state = stop ? before : closeKinds(before, [fact.kind], "superseded", fact.engine);
  const by = attributionOf(event, fact.seenFrom ?? null);
  const from = fact.seenFrom ?? by.post;
  const { due: dueFrom, closes } = definition.answer;
  const due = dueFrom(from).filter(
    (p) => !closes(p, "received") || (state.posts[p] !== null && !(stop && p === by.post)),
  );
  const remindS = definition.remind ? state.type.timing[definition.remind].value : null;
  const signal: Signal = {
    id: event.seq,
    kind: fact.kind,
    engine: fact.engine ?? null,
    from,
    by,
    to: definition.to(from),
    due,
    channel: fact.channel,
    ref: fact.ref ?? null,
    note: fact.note ?? null,
    volts: fact.volts ?? null,
    pressure: fact.pressure ?? null,
    answers: {},
    delivered: {},
    is: due.length === 0 ? "done" : "open",
    dueAt: due.length === 0 || remindS === null ? null : event.at + remindS * 1000,
    late: 0,
  };
  if (signal.is === "open") return { ...state, signals: [...state.signals, signal] };
  return keepEnded(state, signal);
}
