import { acknowledgeFor } from "../alerts/evolve.ts";
import { shutDown, withEngine, withLife } from "../engine/evolve.ts";
import { isTurning, plain } from "../engine/life.ts";
import { authorised } from "../leaves/authority.ts";
import type { FactOf, SessionEvent } from "../protocol/events.ts";
import type { Post } from "../protocol/posts.ts";
import type { Answer, SignalKind } from "../protocol/signals.ts";
import { said } from "../session/attribute.ts";
import { engineOf, isService, type SessionState, type Signal } from "../session/state.ts";
import { CATALOGUE } from "./catalogue.ts";

const ENDED_KEPT = 12;

/**
 * A new signal from its event. That it was received is due from the posts somebody holds, apart from a stop's recorder;
 * an answer that must say more is owed by its post even while vacant.
 */
export function openSignal(before: SessionState, event: SessionEvent, fact: FactOf<"sent">): SessionState {
  const rule = CATALOGUE[fact.kind];
  // A signal sent again takes the place of its older self. Stops stand each for itself.
  const state = rule.stop ? before : closeKinds(before, [fact.kind], "superseded", fact.engine);
  const by = said(event, fact.seenFrom ?? null);
  const from = fact.seenFrom ?? by.post;
  const due = rule
    .due(from)
    .filter(
      (p) => !closes(fact.kind, p, "received") || (state.posts[p] !== null && !(rule.stop && p === by.post)),
    );
  const remindS = rule.remind ? state.type.timing[rule.remind].value : null;
  const signal: Signal = {
    id: event.seq,
    kind: fact.kind,
    engine: fact.engine ?? null,
    from,
    by,
    to: rule.to(from),
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
  return { ...state, ended: [...state.ended, signal].slice(-ENDED_KEPT) };
}

/** Ends an open signal. Ended signals never change again. */
export function closeSignal(
  state: SessionState,
  id: number,
  is: Exclude<Signal["is"], "open">,
): SessionState {
  const signal = state.signals.find((s) => s.id === id);
  if (!signal) return state;
  return {
    ...state,
    signals: state.signals.filter((s) => s.id !== id),
    ended: [...state.ended, { ...signal, is, dueAt: null }].slice(-ENDED_KEPT),
  };
}

/** Closes every open signal of the given kinds (and engine, if named). */
export function closeKinds(
  state: SessionState,
  kinds: readonly SignalKind[],
  is: Exclude<Signal["is"], "open">,
  engine?: number,
): SessionState {
  return state.signals
    .filter((s) => kinds.includes(s.kind) && (engine === undefined || s.engine === engine))
    .reduce((next, s) => closeSignal(next, s.id, is), state);
}

/** Whether this answer is all that is asked of that post: "received" where nothing more is, "done" for a cut. */
export function closes(kind: SignalKind, post: Post, answer: Answer): boolean {
  if (kind === "cut" || kind === "cutAll") return post !== "cockpit" || answer === "done";
  return answer !== "received" || !(isService(kind) || kind === "readyToStart");
}

export function evolveAnswered(
  state: SessionState,
  event: SessionEvent,
  fact: FactOf<"answered">,
): SessionState {
  const signal = state.signals.find((s) => s.id === fact.signal);
  const actor = event.actor;
  if (!signal || actor.kind !== "person" || actor.post === null) return state;
  const post = actor.post;
  const answer = { answer: fact.answer, at: event.at, name: actor.name, channel: fact.channel };
  const answered = { ...signal, answers: { ...signal.answers, [post]: answer } };
  let next: SessionState = {
    ...state,
    signals: state.signals.map((s) => (s.id === signal.id ? answered : s)),
  };
  if (fact.right === false) return next;

  next = effectOf(next, event, fact, answered);
  const complete = answered.due.every((p) => {
    const given = answered.answers[p];
    return given !== undefined && closes(signal.kind, p, given.answer);
  });
  if (fact.answer === "unable" && !CATALOGUE[signal.kind].stop) return closeSignal(next, signal.id, "unable");
  return complete ? closeSignal(next, signal.id, "answered") : next;
}

/** What an answer changes beside the signal itself. */
function effectOf(
  state: SessionState,
  event: SessionEvent,
  fact: FactOf<"answered">,
  signal: Signal,
): SessionState {
  const actor = event.actor;
  if (fact.answer === "readBack" && signal.engine !== null) {
    return withEngine(state, signal.engine, (e) =>
      e.life.is === "clear" && e.life.clearance.id === signal.id
        ? withLife(e, { ...e.life, clearance: { ...e.life.clearance, readBackAt: event.at } })
        : e,
    );
  }
  if (CATALOGUE[signal.kind].stop && actor.kind === "person" && actor.post !== null) {
    const seen = acknowledgeFor(state, signal.id, actor.post);
    return fact.answer === "done" ? cutDone(seen, event.at, signal) : seen;
  }
  if (fact.answer === "authorise" && isService(signal.kind)) {
    return authorised(state, signal.kind, signal.engine, event, signal.id);
  }
  if (fact.answer === "received" && signal.kind === "allClear") return { ...state, allClearAt: event.at };
  if (fact.answer === "unable" && signal.kind === "readyToStart" && signal.engine !== null) {
    const life = engineOf(state, signal.engine)?.life;
    if (life && plain(life).is === "requested") {
      return withEngine(state, signal.engine, (e) => withLife(e, { is: "waiting" }));
    }
  }
  return state;
}

/** The cockpit reports the cut carried out: the engines it named are recorded shut down. */
function cutDone(state: SessionState, at: number, signal: Signal): SessionState {
  const struck = state.engines.filter(
    (e) => isTurning(e.life) && (signal.engine === null || e.n === signal.engine),
  );
  const stopped = struck.reduce((next, e) => shutDown(next, e.n, at, "cut"), state);
  return { ...stopped, cuts: stopped.cuts.map((c) => (c.id === signal.id ? { ...c, doneAt: at } : c)) };
}

/** A device shows it. No person has it by that. */
export function evolveDelivered(
  state: SessionState,
  event: SessionEvent,
  fact: FactOf<"delivered">,
): SessionState {
  return {
    ...state,
    signals: state.signals.map((s) =>
      fact.signals.includes(s.id) ? { ...s, delivered: { ...s.delivered, [fact.post]: event.at } } : s,
    ),
  };
}

/** No answer in time: level 1 reminds, level 2 raises it; then nothing more is due. */
export function evolveLate(state: SessionState, fact: FactOf<"late">): SessionState {
  return {
    ...state,
    signals: state.signals.map((s) => {
      if (s.id !== fact.signal) return s;
      const escalate = CATALOGUE[s.kind].escalate;
      const next = fact.level === 1 && escalate ? s.by.at + state.type.timing[escalate].value * 1000 : null;
      return { ...s, late: fact.level, dueAt: next };
    }),
  };
}
