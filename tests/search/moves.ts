import type { Action, Send } from "../../shared/protocol/commands.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import type { Answer, SignalKind } from "../../shared/protocol/signals.ts";
import { STAGES, stageAfter } from "../../shared/protocol/stages.ts";
import { purposeOf, type SessionState, type Signal } from "../../shared/session/state.ts";
import type { Person } from "../../shared/session/step.ts";
import { signalOf } from "../../shared/signals/all.ts";
import { PEOPLE } from "./model.ts";
import { send } from "./roots.ts";
import type { Scope, Who } from "./scopes.ts";
import { nextMoments } from "./time.ts";

/** One thing that can happen next. A command that never arrives needs no move: it leaves the state as it is. */
export type Move =
  | { is: "act"; by: Person; action: Action; validUntil?: number }
  | { is: "wait"; to: number }
  /** The clock is set, and the server has not noticed. */
  | { is: "slip"; by: number }
  | { is: "tick" }
  /** The supervisor supervises these aircraft besides. */
  | { is: "also"; aircraft: readonly string[] }
  | { is: "restart" }
  | { is: "clock"; by: number };

/** A state and the server's clock, which may have advanced before the server looked at it. */
export interface Node {
  state: SessionState;
  now: number;
}

const REFS: Partial<Record<SignalKind, readonly ("holds" | "cuts" | "fires")[]>> = {
  release: ["holds"],
  resetCut: ["cuts"],
  fireOut: ["fires"],
  fireAt: ["fires"],
  disregard: ["holds", "cuts", "fires"],
};

/** Makes the list of moves of a scope. The list depends on the state alone, so an index into it identifies a move. */
export class Moves {
  private readonly scope: Scope;
  private readonly people: [Who, Person][];
  /** Sends that refer to no open thing, by person and post held; built once. */
  private readonly fixed = new Map<string, Move[]>();

  constructor(scope: Scope) {
    this.scope = scope;
    this.people = scope.people.map((who) => [who, PEOPLE[who]]);
  }

  of({ state, now }: Node): Move[] {
    const moves: Move[] = [];
    const { scope } = this;
    for (const [who, person] of this.people) {
      const post = postOf(state, person);
      for (const move of this.sends(who, post)) moves.push(move);
      this.references(moves, state, who, person, post);
      if (scope.posts) changesOfPost(moves, state, person, post);
      if (post === "supervisor" && scope.course) courseOf(moves, state, person);
      if (post !== null && scope.time && state.liveSince !== null) {
        moves.push({ is: "act", by: person, action: { type: "present" } });
      }
      if (scope.overrides && post !== null) setAside(moves, person, scope.engines);
      if (scope.defects && post === "supervisor") defectsOf(moves, state, person);
      if (scope.drills && post !== null) drillsOf(moves, state, person);
      if (scope.card && post !== null) cardOf(moves, state, person, scope.engines);
      if (scope.oil && post === "cockpit") oilRead(moves, person, scope.engines);
      if (scope.warms && post !== null) warmthSaid(moves, state, person, scope.engines);
    }
    if (scope.supervisesAlso) moves.push({ is: "also", aircraft: state.supervisesAlso ? [] : ["N1"] });
    this.answers(moves, state);
    if (scope.alerts) acknowledgements(moves, state);
    this.stale(moves, state, now);
    if (scope.time) {
      moves.push({ is: "tick" });
      for (const to of nextMoments(state, now, scope.alerts)) moves.push({ is: "wait", to });
    }
    if (scope.upset)
      moves.push(
        { is: "restart" },
        { is: "clock", by: -3000 },
        { is: "clock", by: 3000 },
        { is: "slip", by: -3000 },
      );
    return moves;
  }

  private sends(who: Who, post: Post | null): Move[] {
    const key = `${who} ${post}`;
    const known = this.fixed.get(key);
    if (known) return known;
    const by = PEOPLE[who];
    const moves: Move[] = [];
    for (const kind of this.scope.kinds) {
      if (kind in REFS || !this.sentBy(kind, who)) continue;
      const rule = signalOf(kind);
      const gives = rule.from === "anyone" || (post !== null && rule.from.includes(post));
      // Reports that lower confidence come from a person without a post too.
      const may = gives || (rule.class === "lowers" && post === null);
      // One attempt by a person without permission, for the kinds that would do the most harm.
      const tried = kind === "clearToStart" || (kind === "arcClear" && post === null);
      if (!may && !tried) continue;
      const engines = rule.engine === "required" || kind === "fire" ? this.scope.engines : [undefined];
      for (const engine of engines) {
        const on = engine === undefined ? {} : { engine };
        for (const more of [...figures(kind), ...this.places(kind)]) {
          moves.push({ is: "act", by, action: send(kind, { ...on, ...more }) });
        }
      }
      if (kind === "cut" && post === "cockpit")
        moves.push({ is: "act", by, action: send(kind, { engine: 7 }) });
      // A hand signal of the cockpit, recorded by the ground: never the crew's leave.
      if (rule.witnessable && rule.answer.allowed.includes("authorise") && post !== "cockpit") {
        const action = send(kind, { channel: "hand", seenFrom: "cockpit" });
        moves.push({ is: "act", by, action });
      }
    }
    this.fixed.set(key, moves);
    return moves;
  }

  /** The word of a supervisor of several, at which aircraft they stand: this one, and another. */
  private places(kind: SignalKind): Partial<Send>[] {
    if (!this.scope.supervisesAlso || kind !== "clearToStart") return [];
    return [{ standsAt: "N0" }, { standsAt: "N1" }];
  }

  private sentBy(kind: SignalKind, who: Who): boolean {
    const only = this.scope.onlyFrom[kind];
    return only === undefined || only.includes(who);
  }

  /** Adds what ends or locates an open thing, for each. */
  private references(moves: Move[], state: SessionState, who: Who, by: Person, post: Post | null) {
    for (const kind of Object.keys(REFS) as SignalKind[]) {
      const open = (REFS[kind] ?? []).flatMap((list): readonly { id: number }[] => state[list]);
      if (open.length === 0 || !this.scope.kinds.includes(kind) || !this.sentBy(kind, who)) continue;
      const rule = signalOf(kind);
      if (rule.from !== "anyone" && (post === null || !rule.from.includes(post))) continue;
      for (const { id } of open) {
        if (kind === "fireAt") {
          for (const engine of this.scope.engines)
            moves.push({ is: "act", by, action: send(kind, { ref: id, engine }) });
        } else moves.push({ is: "act", by, action: send(kind, { ref: id }) });
        if (kind === "release" && post === "supervisor") {
          moves.push({ is: "act", by, action: send(kind, { ref: id, note: "owner gone" }) });
        }
      }
    }
  }

  private answers(moves: Move[], state: SessionState) {
    for (const signal of state.signals) {
      if (!this.scope.answered.includes(signal.kind)) continue;
      for (const post of signal.due) {
        const by = this.holderOf(state, post);
        if (!by) continue;
        for (const answer of signalOf(signal.kind).answer.allowed) {
          if (signal.answers[post]?.answer === answer) continue;
          if (answer !== "readBack") moves.push(answered(by, signal, answer));
          else for (const n of [1, 2]) moves.push(answered(by, signal, answer, n));
        }
      }
      if (signal.kind === "clearToStart") {
        const by = this.holderOf(state, "fireGuard");
        if (by) moves.push(answered(by, signal, "readBack", signal.engine ?? 0));
      }
    }
  }

  private holderOf(state: SessionState, post: Post): Person | undefined {
    const holder = state.posts[post];
    if (!holder) return undefined;
    return this.people.find(([, p]) => p.id === holder.id && p.device === holder.device)?.[1];
  }

  /** Adds commands that arrive late: decided on an earlier state. */
  private stale(moves: Move[], state: SessionState, now: number) {
    const cockpit = this.holderOf(state, "cockpit");
    const guard = this.holderOf(state, "fireGuard");
    if (cockpit) {
      for (const n of this.scope.engines) {
        const old = state.ended.findLast((s) => s.kind === "clearToStart" && s.engine === n);
        if (!old) continue;
        if (this.scope.kinds.includes("cranking")) {
          moves.push({ is: "act", by: cockpit, action: send("cranking", { engine: n, ref: old.id }) });
        }
        moves.push(answered(cockpit, old, "readBack", n));
      }
      const service = state.ended.findLast((s) => signalOf(s.kind).answer.allowed.includes("authorise"));
      if (service) moves.push(answered(cockpit, service, "authorise"));
      if (this.scope.kinds.includes("cranking")) {
        const action = send("cranking", { engine: 1 });
        moves.push({ is: "act", by: cockpit, action, validUntil: now - 1 });
      }
    }
    if (guard && this.scope.kinds.includes("arcNotClear")) {
      const action = send("arcNotClear", { engine: 1 });
      moves.push({ is: "act", by: guard, action, validUntil: now - 1 });
    }
    if (guard && this.scope.kinds.includes("hold")) {
      moves.push({ is: "act", by: guard, action: send("hold"), validUntil: now - 1 });
    }
  }
}

/** Returns the post that a person holds, as the search reads the state. */
export function postOf(state: SessionState, person: { id: string; device: string }): Post | null {
  for (const post of POSTS) {
    const holder = state.posts[post];
    if (holder && holder.id === person.id && holder.device === person.device) return post;
  }
  return null;
}

function figures(kind: SignalKind): Partial<Send>[] {
  switch (kind) {
    case "powerConnected":
      return [{ volts: { value: 28, unit: "V" } }, { volts: { value: 20, unit: "V" } }];
    case "brakesSet":
      return [{ pressure: { value: 100, unit: "psi" } }, { pressure: { value: 10, unit: "psi" } }];
    case "fire":
      return [{ place: "induction" }];
    case "readyToStart":
      return [{}, { note: "out of order" }];
    default:
      return [{}];
  }
}

function answered(by: Person, signal: Signal, answer: Answer, engine?: number): Move {
  const more = engine === undefined ? {} : { engine };
  return { is: "act", by, action: { type: "answer", signal: signal.id, answer, channel: "panel", ...more } };
}

function acknowledgements(moves: Move[], state: SessionState) {
  for (const alert of state.alerts) {
    for (const by of Object.values(PEOPLE)) {
      const post = postOf(state, by);
      if (!post || alert.posts[post] === undefined) continue;
      moves.push({ is: "act", by, action: { type: "acknowledgeAlert", alert: alert.id } });
      if (post === "cockpit") {
        moves.push({ is: "act", by, action: { type: "shelveAlert", alert: alert.id, minutes: 1 } });
      }
    }
  }
}

/** Adds overrides by everybody, so that posts without permission try them too. */
function setAside(moves: Move[], by: Person, engines: readonly number[]) {
  for (const engine of engines) {
    for (const condition of ["brakesSet", "arcClear"] as const) {
      moves.push({ is: "act", by, action: { type: "override", condition, engine, reason: "known" } });
    }
  }
}

function oilRead(moves: Move[], by: Person, engines: readonly number[]) {
  for (const engine of engines) {
    for (const value of [60, 20]) {
      const reading = { value, unit: "psi" as const };
      moves.push({ is: "act", by, action: { type: "reading", gauge: "oilPressure", engine, reading } });
    }
  }
}

/** Adds oil temperatures at a start, cold and warm, and forecasts at a return, with their source and without, by everybody. */
function warmthSaid(moves: Move[], state: SessionState, by: Person, engines: readonly number[]) {
  const act = (action: Action) => moves.push({ is: "act", by, action });
  if (state.returning) {
    for (const note of [{}, { note: "Weather office" }]) {
      const reading = { value: -20, unit: "degC" as const };
      act({ type: "recordCheck", check: "nightLeast", reading, ...note });
    }
    return;
  }
  for (const engine of engines)
    for (const value of [30, 50])
      act({ type: "reading", gauge: "oilTemp", engine, reading: { value, unit: "degC" } });
}

function defectsOf(moves: Move[], state: SessionState, by: Person) {
  if (state.defects.length === 0) {
    const action = { type: "writeDefect", words: "leak", engine: 1, barsStart: true } as const;
    moves.push({ is: "act", by, action });
  }
  for (const { id } of state.defects) {
    moves.push({ is: "act", by, action: { type: "closeDefect", defect: id, reason: "tightened" } });
  }
}

/**
 * Adds the opening and ending of the drill at the first engine, by everybody, so that posts without permission try them
 * too.
 */
function drillsOf(moves: Move[], state: SessionState, by: Person) {
  if (state.drills.length === 0) {
    moves.push({ is: "act", by, action: { type: "startDrill", drill: "kickback", engine: 1 } });
  }
  for (const { id } of state.drills) {
    moves.push({ is: "act", by, action: { type: "endDrill", run: id, outcome: "looked at" } });
  }
}

/** Adds both answers to every item, due or not, by everybody, so that posts without permission try them too. */
function cardOf(moves: Move[], { type }: SessionState, by: Person, engines: readonly number[]) {
  for (const { id, moment } of type.card ?? []) {
    for (const at of moment === "beforeStart" ? [{}] : engines.map((engine) => ({ engine }))) {
      for (const good of [true, false])
        moves.push({ is: "act", by, action: { type: "answerCard", item: id, good, ...at } });
    }
  }
}

/** Adds changes of the guard's and the cockpit's post. */
function changesOfPost(moves: Move[], state: SessionState, by: Person, post: Post | null) {
  const act = (action: Action) => moves.push({ is: "act", by, action });
  if (post === "fireGuard" || post === "cockpit") {
    act({ type: "leavePost", post });
    if (by.id !== PEOPLE.spare.id) act({ type: "offerPost", post, to: PEOPLE.spare.id });
  }
  for (const wanted of ["fireGuard", "cockpit"] as const) {
    if (wanted !== post && by.mayHold.includes(wanted)) act({ type: "claimPost", post: wanted });
    if (state.offers[wanted]?.to === by.id) act({ type: "acceptPost", post: wanted });
    if (post === "supervisor" && state.posts[wanted]) {
      act({ type: "vacatePost", post: wanted, reason: "silent" });
    }
  }
  if (post !== null && state.posts[post]?.briefed === false) act({ type: "confirmBrief" });
}

function courseOf(moves: Move[], state: SessionState, by: Person) {
  const next = stageAfter(state.stage, purposeOf(state));
  if (next) moves.push({ is: "act", by, action: { type: "advance", to: next } });
  const skipped = STAGES[STAGES.indexOf(state.stage) + 2];
  if (skipped) moves.push({ is: "act", by, action: { type: "advance", to: skipped } });
  const order = [...state.order].reverse();
  moves.push({ is: "act", by, action: { type: "amendPlan", order, reason: "wind" } });
  moves.push({ is: "act", by, action: { type: "abandon", reason: "weather" } });
}
