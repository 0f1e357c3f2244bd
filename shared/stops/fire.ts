import type { Send } from "../protocol/commands.ts";
import type { FactOf, SessionEvent } from "../protocol/events.ts";
import { LIVE_STAGES } from "../protocol/stages.ts";
import { isAnother } from "../session/another.ts";
import { attributionOf } from "../session/attribute.ts";
import type { Fire, SessionState } from "../session/state.ts";
import { accept, type Context, refuse, type Verdict } from "../session/verdict.ts";
import { closeSignal } from "../signals/close.ts";
import { ANNEX } from "../signals/definition.ts";
import { lowering, signal } from "../signals/kinds.ts";
import { afterFire, setAlight } from "./alight.ts";
import { addWord } from "./fireWords.ts";
import { latched, stop, stopAnswers } from "./latch.ts";
import { slipOf } from "./slip.ts";

/** A report of a fire, with its place if known. It never cuts by itself. */
export const fire = stop({
  engine: "optional",
  tone: "danger",
  incident: true,
  standard: { figure: "fire", text: `${ANNEX} 5.1, fire` },
  answer: { ...stopAnswers, allowed: ["received", "willComply", "unable"] },
  evolve(before, event, fact) {
    const state = latched(before);
    const by = attributionOf(event, fact.seenFrom ?? null);
    const id = event.seq;
    const begun = {
      id,
      by,
      engine: fact.engine ?? null,
      place: fact.place ?? "notSaid",
      outBy: null,
      ...slipOf(state, event),
    };
    const struck = fact.engine === undefined ? state : setAlight(state, fact.engine, id, event.at);
    return { ...struck, fires: [...struck.fires, begun] };
  },
});

/**
 * Says where a fire burns: its engine, its place or both. Without a number it is about the last fire of its sender. About
 * a fire that does not stand it is a report of its own, because somebody sees one.
 */
export const fireAt = lowering({
  from: "anyone",
  engine: "optional",
  tone: "danger",
  incident: true,
  decide(state, send, context) {
    const fire = meant(state, send, context.person.name);
    if (fire) return accept({ ...send, ref: fire.id, type: "sent" });
    const { ref: _gone, ...whole } = send;
    return accept({ ...whole, kind: "fire", type: "sent" });
  },
  evolve(state, event, fact) {
    const { actor } = event;
    if (actor.kind !== "person" || fact.ref === undefined) return state;
    const word = {
      by: attributionOf(event, null),
      person: actor.id,
      engine: fact.engine ?? null,
      place: fact.place ?? "notSaid",
    };
    return addWord(state, fact.ref, word, event.seq);
  },
});

/** Returns the standing fire that a word is about. */
function meant(state: SessionState, { ref }: Send, name: string): Fire | undefined {
  return ref === undefined
    ? state.fires.findLast((f) => f.by.name === name)
    : state.fires.find((f) => f.id === ref);
}

export const fireOut = signal({
  from: ["fireGuard", "supervisor", "cockpit"],
  stages: LIVE_STAGES,
  decide: maySayOut,
  evolve: saidOut,
});

/**
 * Records the first person's report; the second person's report ends the fire. An engine that does not turn is then
 * shut down.
 */
function saidOut(state: SessionState, event: SessionEvent, fact: FactOf<"sent">): SessionState {
  const fire = state.fires.find((f) => f.id === fact.ref);
  const { actor } = event;
  if (!fire || actor.kind !== "person") return state;
  if (fire.outBy === null) {
    const outBy = { person: actor.id, device: actor.device, name: actor.name, at: event.at };
    return { ...state, fires: state.fires.map((f) => (f.id === fire.id ? { ...f, outBy } : f)) };
  }
  const fires = state.fires.filter((f) => f.id !== fire.id);
  return afterFire(closeSignal({ ...state, fires }, fire.id, "done"), fire, event.at);
}

/** A fire is out when two different people on two devices report it out. */
function maySayOut(state: SessionState, send: Send, context: Context): Verdict {
  const fire = state.fires.find((f) => f.id === send.ref);
  if (!fire) return refuse("nothingOpen");
  const first = fire.outBy;
  if (first && !isAnother(context.person, first)) {
    return refuse("secondPersonNeeded", { found: first.name, posts: ["fireGuard", "supervisor", "cockpit"] });
  }
  return accept({ ...send, type: "sent" });
}
