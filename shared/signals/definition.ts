import type { Choice } from "../asks/ask.ts";
import type { PlainLife } from "../engine/life.ts";
import type { Action, Send } from "../protocol/commands.ts";
import type { FactOf, SessionEvent } from "../protocol/events.ts";
import { otherPosts, POSTS, type Post } from "../protocol/posts.ts";
import type { Answer } from "../protocol/signals.ts";
import type { Stage } from "../protocol/stages.ts";
import type { SessionState, Signal } from "../session/state.ts";
import type { Context, Verdict } from "../session/verdict.ts";
import type { GivenTime } from "../types/schema.ts";

/** The standard hand form of a signal. `text` is the citation, `figure` the key of the drawing. */
export interface StandardForm {
  figure: string;
  text: string;
}

export type AnswerAction = Extract<Action, { type: "answer" }>;

/**
 * The effect of a message on the confidence of the others. A stop, and a report that lowers confidence, is taken from
 * anybody signed in, with or without a post, in every stage and at any age, without leave or clearance. Only what
 * raises confidence or asks is checked for post, stage, leave and age.
 */
export type SaidClass = "stop" | "lowers" | "raises";

/** One kind of signal, whole: who sends it, to whom, when, what it means, and how it is answered. */
export interface SignalDefinition {
  class: SaidClass;
  /** For a kind that raises confidence: true for one that lowers it by its figure. */
  lowersBy(state: SessionState, send: Send): boolean;
  /** The posts that give it, `anyone` includes observers. The class may let others send it too. */
  from: readonly Post[] | "anyone";
  stages: readonly Stage[];
  to(from: Post | null): Post[];
  engine: "required" | "optional" | "none";
  /** True if a session in which it was sent is kept as the record of an incident. */
  incident: boolean;
  /** Its style on the exchange chart. */
  tone: "plain" | "hold" | "danger";
  /** True if a person who saw it given by hand may record it for its giver. Never for a clearance. */
  witnessable: boolean;
  standard: StandardForm | null;
  /** Seconds to the reminder and to the supervisor's alert, from the type's timing. */
  remind: GivenTime | null;
  escalate: GivenTime | null;
  /**
   * Returns whether sending it is accepted now, and the facts that follow. Of what raises confidence, post, stage,
   * engine and witness are already checked.
   */
  decide(state: SessionState, send: Send, context: Context): Verdict;
  /** Returns the state after it was sent and its signal opened. */
  evolve(state: SessionState, event: SessionEvent, fact: FactOf<"sent">): SessionState;
  answer: AnswerRules;
  /** The place where a panel offers it besides the asks. */
  menu: SignalMenu | null;
}

/** The answers to one kind of signal. */
export interface AnswerRules {
  /** Posts whose answer is due; empty for a report that needs none. */
  due(from: Post | null): Post[];
  allowed: readonly Answer[];
  /** Returns whether this answer completes what is due from that post. */
  closes(post: Post, answer: Answer): boolean;
  /** Returns a verdict for an allowed answer of an addressed post; null records the answer as it is. */
  decide(state: SessionState, signal: Signal, action: AnswerAction, context: Context): Verdict | null;
  /** Returns the state with the answer's effects other than on the signal itself. */
  evolve(state: SessionState, event: SessionEvent, fact: FactOf<"answered">, signal: Signal): SessionState;
  /** The ask that a due answer makes: its weight and choices. Null where another ask has the answer. */
  asked: {
    weight: 0 | 2 | 3;
    choices(state: SessionState, signal: Signal, post: Post, now: number): Choice[];
  } | null;
}

/** A signal's place among an engine's keys. */
export interface SignalMenu {
  /** Posts that may send it from there. */
  own: readonly Post[];
  /** Posts that commonly see it given by hand and may record it for its giver, which is the first of `from`. */
  seenBy: readonly Post[];
  /** The engine's states in which it makes sense; null for all. */
  when: readonly PlainLife["is"][] | null;
  tone: "no" | "plain";
}

export const toAll = (from: Post | null): Post[] => otherPosts(from);
/** A cut goes to the cockpit even if the cockpit sent it, because only the cockpit can report it done. */
export const toAllAndCockpit = (from: Post | null): Post[] =>
  POSTS.filter((p) => p !== from || p === "cockpit");
export const toOnly =
  (...posts: Post[]) =>
  (from: Post | null): Post[] =>
    posts.filter((p) => p !== from);
export const toNobody = (): Post[] => [];

/** Sources of the standard hand forms. */
export const SI = "UK SI 2007/3468 Sch 8 r.63";
export const ANNEX = "ICAO Annex 2 App 1";
