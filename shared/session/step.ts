import { isNews } from "../aircraft/know.ts";
import { postHeld } from "../posts/postHeld.ts";
import type { Action } from "../protocol/commands.ts";
import { type Actor, EVENT_VERSION, type Fact, type SessionEvent } from "../protocol/events.ts";
import type { Refusal } from "../protocol/refusal.ts";
import type { Standing } from "../protocol/standing.ts";
import { consequences } from "./consequences.ts";
import { decide } from "./decide.ts";
import { evolve } from "./evolve.ts";
import { isOver, type SessionState } from "./state.ts";
import type { Context } from "./verdict.ts";

/** A signed-in person on a device, and the posts they are qualified for. */
export type Person = Context["person"];

/** The command as far as the record needs it. */
export interface CommandMark {
  id: string;
  /** Digest of the command's bytes, to tell a repeat from a second use of the same id. */
  digest: string;
  clientAt: number;
  validUntil?: number;
}

/** What came of one step: the events to append, the state after them, and the refusal if there was one. */
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

/** How far the clock may run behind the log, milliseconds: events of one moment may be decided out of order. */
const CLOCK_SLACK_MS = 1_000;

/** A bound no session reaches: consequences settle in a few rounds, and a loop would be our own fault. */
const ROUNDS = 50;

/** Plans a session: its first event. The plan has been validated by the caller against the type. */
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

/** What a decision needs to know from outside the session. */
export interface Outside {
  /** Code of another session of this aircraft that has left its brief; see `Context`. Asked for only when `leavesBrief`. */
  elsewhere?: string | undefined;
  /** The aircraft's record as this session is told it. */
  standing?: Standing | undefined;
}

/**
 * Decides a person's action. A refusal is recorded too, except in a session that is over and for a device's own report.
 * News of the aircraft's record, and whatever time has brought, are recorded first, and the action is decided on the
 * state after them: a server that looks late at its clock lets nobody act on what has run out.
 */
export function act(
  before: SessionState,
  action: Action,
  person: Person,
  mark: CommandMark,
  now: number,
  { elsewhere, standing }: Outside = {},
): Step {
  const told = standing ? tell(before, standing, now) : { state: before, events: [] };
  const caught = caughtUp(told.state, now) ? { state: told.state, events: [] } : tick(told.state, now);
  const { state } = caught;
  const events = [...told.events, ...caught.events];
  const post = postHeld(state, person);
  const verdict = decide(state, action, { now, person, post, elsewhere }, mark.validUntil);
  const facts = [...verdict.facts];
  // What a device says by itself and too late is nobody's act: nothing of it is kept.
  const kept = !isOver(state) && action.type !== "delivered";
  if (verdict.refusal && kept) facts.push({ type: "refused", action, refusal: verdict.refusal });
  const actor: Actor = { kind: "person", id: person.id, name: person.name, post, device: person.device };
  const origin = { actor, command: mark.id, digest: mark.digest, clientAt: mark.clientAt };
  const step = record(state, facts, origin, now, events);
  return verdict.refusal ? { ...step, refusal: verdict.refusal } : step;
}

/** The aircraft's record moved: what is new in it stands in the session from now on. */
export function tell(state: SessionState, standing: Standing, now: number): Step {
  if (isOver(state) || !isNews(state, standing)) return { state, events: [] };
  return record(state, [{ type: "aircraftKnown", standing }], SYSTEM, now);
}

/** Every step ends with nothing more to follow at its moment: until a later one there is nothing to look for. */
function caughtUp(state: SessionState, now: number): boolean {
  return now <= state.at && now >= state.at - CLOCK_SLACK_MS;
}

/** What time has brought since the last event. */
export function tick(before: SessionState, now: number): Step {
  const { state, events } = clockNoticed(before, now);
  return record(state, [], SYSTEM, now, events);
}

/** A clearance's end cannot be told by a clock that went back: nothing that time bounds may outlive it. */
function clockNoticed(state: SessionState, now: number): Step {
  if (now >= state.at - CLOCK_SLACK_MS || isOver(state)) return { state, events: [] };
  return record(state, [{ type: "clockStepped", by: now - state.at }], SYSTEM, now);
}

/** The server came up again, or its clock was set: every clearance and authority is void, holds stand. */
export function unsettle(
  state: SessionState,
  fact: Extract<Fact, { type: "restarted" | "clockStepped" }>,
  now: number,
): Step {
  if (isOver(state)) return { state, events: [] };
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
    // The log's own time never runs backwards, whatever the server's clock does.
    const at = Math.max(now, state.at);
    const event = envelope(state.id, state.seq + 1, at, from, cause, fact);
    state = evolve(state, event);
    events.push(event);
  };
  for (const fact of facts) add(fact, origin, null);
  if (isOver(before)) return { state, events };
  const cause = events[recorded.length]?.seq ?? null;
  for (let round = 0; round < ROUNDS; round += 1) {
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
