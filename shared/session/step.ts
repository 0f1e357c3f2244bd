import { isNews } from "../aircraft/know.ts";
import { isFieldNews } from "../field/know.ts";
import { isSupervisedNews } from "../posts/alsoSupervised.ts";
import { postHeld } from "../posts/postHeld.ts";
import type { Action } from "../protocol/commands.ts";
import { type Actor, EVENT_VERSION, type Fact, type FactOf, type SessionEvent } from "../protocol/events.ts";
import type { Field } from "../protocol/field.ts";
import { POSTS } from "../protocol/posts.ts";
import type { Refusal } from "../protocol/refusal.ts";
import type { Standing } from "../protocol/standing.ts";
import { consequences } from "./consequences.ts";
import { decide } from "./decide.ts";
import { evolve } from "./evolve.ts";
import { isOver, type SessionState } from "./state.ts";
import type { Context, PostElsewhere, ShownEquipment } from "./verdict.ts";

/** A signed-in person on a device, and the posts they are qualified for. */
export type Person = Context["person"];

/** The parts of a command that the record needs. */
export interface CommandMark {
  id: string;
  /** Digest of the command's bytes. It tells a repeat from a second use of the same id. */
  digest: string;
  clientAt: number;
  validUntil?: number;
}

/** The result of one step: the events to append, the state after them, and the refusal if there was one. */
export interface Step {
  state: SessionState;
  events: SessionEvent[];
  refusal?: Refusal;
}

interface Origin {
  actor: Actor;
  command: string | null;
  digest: string | null;
  clientAt: number | null;
}

const SYSTEM: Origin = { actor: { kind: "system" }, command: null, digest: null, clientAt: null };

/** Milliseconds by which the clock may run behind the log: events of one moment may be decided out of order. */
const CLOCK_SLACK_MS = 1_000;

/** A bound that no session reaches. Consequences settle in a few rounds; a loop would be a fault of the program. */
const ROUNDS = 50;

/** Returns the step that plans a session: its first event. The caller has validated the plan against the type. */
export function plan(
  session: string,
  fact: Extract<Fact, { type: "planned" }>,
  person: Person,
  mark: CommandMark,
  now: number,
): Step {
  const actor: Actor = {
    kind: "person",
    id: person.id,
    name: person.name,
    post: null,
    device: person.device,
  };
  const origin: Origin = { actor, command: mark.id, digest: mark.digest, clientAt: mark.clientAt };
  const event = envelope(session, 1, now, origin, null, fact);
  return { state: evolve(null, event), events: [event] };
}

/** Facts from outside the session that a decision needs. */
export interface Outside {
  /**
   * Code of another session of this aircraft that has left its brief; see `Context`. Needed only when `leavesBrief`.
   */
  elsewhere?: string | undefined;
  /** A post that this person holds in another open session. Needed only when `takesPost`. */
  postElsewhere?: PostElsewhere | undefined;
  /** The lapsed currency that bars this person from the post; see `Context`. Needed only when `takesPost`. */
  lapsed?: string | undefined;
  /** The piece of equipment that `showEquipment` names; see `Context`. */
  equipment?: ShownEquipment | undefined;
  /** The part of the aircraft's record that this session is told. */
  standing?: Standing | undefined;
  /** Reports of other sessions on the field. */
  field?: Field | undefined;
  /** The other aircraft of this session's supervisor, if the session does not know them yet. */
  supervisesAlso?: readonly string[] | undefined;
}

/**
 * Decides a person's action. A refusal is recorded too, except in a session that is over, and except for a device's own
 * report. News of the aircraft's record and the consequences of time are recorded first, and the action is decided on
 * the state after them. So nobody can act on something that ran out, even if the server looks at its clock late.
 */
export function act(
  before: SessionState,
  action: Action,
  person: Person,
  mark: CommandMark,
  now: number,
  { elsewhere, postElsewhere, lapsed, equipment, standing, field, supervisesAlso }: Outside = {},
): Step {
  const told = standing ? tell(before, standing, now) : { state: before, events: [] };
  const air = field ? tellField(told.state, field, now) : { state: told.state, events: [] };
  const also = supervisesAlso
    ? tellSupervised(air.state, supervisesAlso, now)
    : { state: air.state, events: [] };
  const caught = caughtUp(also.state, now) ? { state: also.state, events: [] } : tick(also.state, now);
  const { state } = caught;
  const events = [...told.events, ...air.events, ...also.events, ...caught.events];
  const post = postHeld(state, person);
  // Anybody may practise any post.
  const may = state.rehearsal ? { ...person, mayHold: POSTS } : person;
  const context = { now, person: may, post, elsewhere, postElsewhere, lapsed, equipment };
  const verdict = decide(state, action, context, mark.validUntil);
  const facts = [...verdict.facts];
  // A device's own report that comes too late is no person's act, so nothing of it is recorded.
  const kept = !isOver(state) && action.type !== "delivered";
  if (verdict.refusal && kept) facts.push({ type: "refused", action, refusal: verdict.refusal });
  const actor: Actor = { kind: "person", id: person.id, name: person.name, post, device: person.device };
  const origin = { actor, command: mark.id, digest: mark.digest, clientAt: mark.clientAt };
  const step = record(state, facts, origin, now, events);
  return verdict.refusal ? { ...step, refusal: verdict.refusal } : step;
}

/** Records what is new in the aircraft's record; the session holds it from then on. */
export function tell(state: SessionState, standing: Standing, now: number): Step {
  if (isOver(state) || !isNews(state, standing)) return { state, events: [] };
  return record(state, [{ type: "aircraftKnown", standing }], SYSTEM, now);
}

/** Records lightning or weather that another session on the field reported. It counts here from now on. */
export function tellField(state: SessionState, field: Field, now: number): Step {
  if (isOver(state) || !isFieldNews(state, field)) return { state, events: [] };
  return record(state, [{ type: "fieldKnown", field }], SYSTEM, now);
}

/** Records the other aircraft of this session's supervisor. */
export function tellSupervised(state: SessionState, aircraft: readonly string[], now: number): Step {
  if (isOver(state) || !isSupervisedNews(state, aircraft)) return { state, events: [] };
  return record(state, [{ type: "supervisesAlso", aircraft: [...aircraft] }], SYSTEM, now);
}

/** Records what an instrument read, or a report of the field's station. */
export function recordInstrument(
  before: SessionState,
  fact: FactOf<"instrumentsRead" | "stationRead">,
  now: number,
): Step {
  if (isOver(before)) return { state: before, events: [] };
  const { state, events } = clockNoticed(before, now);
  return record(state, [fact], SYSTEM, now, events);
}

/** Returns true if nothing can follow at this moment: every step ends only when no consequence is left. */
function caughtUp(state: SessionState, now: number): boolean {
  return now <= state.at && now >= state.at - CLOCK_SLACK_MS;
}

/** Records the consequences of the time since the last event. */
export function tick(before: SessionState, now: number): Step {
  const { state, events } = clockNoticed(before, now);
  return record(state, [], SYSTEM, now, events);
}

/** Ends every permission when the clock went back, because a clock that went back cannot say when a clearance ends. */
function clockNoticed(state: SessionState, now: number): Step {
  if (now >= state.at - CLOCK_SLACK_MS || isOver(state)) return { state, events: [] };
  return record(state, [{ type: "clockStepped", by: now - state.at }], SYSTEM, now);
}

/** The server restarted, or its clock was set: every clearance and leave ends; stops stay. */
export function voidPermissions(
  state: SessionState,
  fact: Extract<Fact, { type: "restarted" | "clockStepped" }>,
  now: number,
): Step {
  if (isOver(state)) return { state, events: [] };
  return record(state, [fact], SYSTEM, now);
}

/**
 * Records in a rehearsal what its server says of the simulated world, that somebody is not there any more, or that it
 * ends it. Nothing in a start.
 */
export function noteRehearsal(
  state: SessionState,
  fact: Extract<Fact, { type: "rehearsed" | "stageReached" | "postLeft" }>,
  now: number,
): Step {
  if (isOver(state) || !state.rehearsal) return { state, events: [] };
  return record(state, [fact], SYSTEM, now);
}

function record(
  before: SessionState,
  facts: readonly Fact[],
  origin: Origin,
  now: number,
  recorded: readonly SessionEvent[] = [],
): Step {
  let state = before;
  const events: SessionEvent[] = [...recorded];
  const add = (fact: Fact, from: Origin, cause: number | null) => {
    // The times of the log never go back, even if the server's clock does.
    const at = Math.max(now, state.at);
    const event = envelope(state.id, state.seq + 1, at, from, cause, fact);
    state = evolve(state, event);
    events.push(event);
  };
  for (const fact of facts) add(fact, origin, null);
  const cause = events[recorded.length]?.seq ?? null;
  for (let round = 0; round < ROUNDS; round += 1) {
    // The end of a session is its last event: nothing follows from it.
    if (isOver(state)) return { state, events };
    const follow = consequences(state, Math.max(now, state.at));
    if (follow.length === 0) return { state, events };
    for (const fact of follow) add(fact, SYSTEM, cause);
  }
  throw new Error(`consequences of event ${state.seq} in session ${state.id} do not settle`);
}

function envelope(
  session: string,
  seq: number,
  at: number,
  origin: Origin,
  cause: number | null,
  fact: Fact,
): SessionEvent {
  return { v: EVENT_VERSION, session, seq, at, ...origin, cause, fact };
}
