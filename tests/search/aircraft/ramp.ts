import { contributionOf } from "../../../shared/aircraft/contribution.ts";
import { evolveRecord } from "../../../shared/aircraft/evolve.ts";
import type { AircraftRecord } from "../../../shared/aircraft/record.ts";
import { standingFor } from "../../../shared/aircraft/standingFor.ts";
import type { Action } from "../../../shared/protocol/commands.ts";
import { POSTS } from "../../../shared/protocol/posts.ts";
import type { RecordFact } from "../../../shared/protocol/recordEvents.ts";
import { isOver, type SessionState } from "../../../shared/session/state.ts";
import { act, plan, type Step, tell } from "../../../shared/session/step.ts";
import { PEOPLE, START, TYPE } from "../model.ts";
import { MARK, send, stateAt } from "../roots.ts";

/** One aircraft: its record and its sessions. Time stands still; what matters here is order. */
export interface Ramp {
  record: AircraftRecord;
  sessions: readonly SessionState[];
  /** Places of sessions whose last change has not reached the record yet. */
  pending: readonly number[];
  /** Engines, as session and number, that turn or were left turning there and were seen still from elsewhere. */
  seenStill: readonly string[];
}

export const ENGINES = [1, 2] as const;

export const ROOTS = ["beside", "hands", "closed", "returns", "stopped", "none"] as const;
export type Root = (typeof ROOTS)[number];

/**
 * The aircraft where a search begins. beside: a session in which an engine is cleared, and one in its brief. hands: the
 * same with hands on a propeller in the first. closed: a session that ended with two engines turning. returns: a return with
 * two engines turning, and a start in its brief. stopped: the same with the last engine stopped and not seen still.
 * none: no session.
 */
export function rampAt(root: Root): Ramp {
  const opened: RecordFact = { type: "opened", aircraft: "N0", engines: ENGINES.length };
  const empty: Ramp = {
    record: evolveRecord(null, recordEvent(1, opened)),
    sessions: [],
    pending: [],
    seenStill: [],
  };
  switch (root) {
    case "none":
      return planned(empty);
    case "beside":
      return planned(withSession(empty, stateAt("cleared")));
    case "hands": {
      const prepared = said(stateAt("prepared"), "cockpit", send("handlePropeller", { engine: 2 }));
      return planned(withSession(empty, prepared));
    }
    case "closed":
      return planned(withSession(empty, closed()));
    case "returns":
      return planned(withSession(empty, stateAt("stopping")));
    case "stopped":
      return planned(withSession(empty, stateAt("lastStopped")));
  }
}

function withSession(ramp: Ramp, state: SessionState): Ramp {
  return settled({ ...ramp, sessions: [...ramp.sessions, state] }, ramp.sessions.length);
}

/** One more session, planned with what stands, its posts held and its stage the one after the brief if it may be. */
export function planned(ramp: Ramp): Ramp {
  const id = `s${ramp.sessions.length + 1}`;
  const crew = { cockpit: null, fireGuard: null, groundPower: null, supervisor: null };
  const standing = standingFor(ramp.record, id);
  const fact = {
    type: "planned" as const,
    aircraft: "N0",
    place: "stand 1",
    aircraftType: TYPE,
    order: [1, 2],
    powerSource: "batteries" as const,
    crew,
    standing,
  };
  let state = plan(id, fact, PEOPLE.supervisor, MARK, START).state;
  for (const post of POSTS) state = said(state, post, { type: "claimPost", post });
  // A stop keeps it in its plan, where whoever gave it can end it.
  state = act(state, { type: "advance", to: "brief" }, PEOPLE.supervisor, MARK, START).state;
  for (const post of POSTS) state = act(state, { type: "confirmBrief" }, PEOPLE[post], MARK, START).state;
  return withSession(ramp, state);
}

/** A person acts in one session, which knows the record as it is now. */
export function acted(ramp: Ramp, i: number, who: keyof typeof PEOPLE, action: Action): Step {
  const state = ramp.sessions[i];
  if (!state) throw new Error(`no session ${i}`);
  return act(state, action, PEOPLE[who], MARK, START, { standing: standingFor(ramp.record, state.id) });
}

export function replaced(ramp: Ramp, i: number, state: SessionState): Ramp {
  return { ...ramp, sessions: ramp.sessions.map((s, k) => (k === i ? state : s)) };
}

/** The record takes over what session `i` changed, and every open session is told, until none has news. */
export function settled(before: Ramp, i: number): Ramp {
  const state = before.sessions[i];
  if (!state) throw new Error(`no session ${i}`);
  const record = recorded(before.record, {
    type: "contributed",
    session: state.id,
    through: state.seq,
    over: isOver(state),
    contribution: contributionOf(state),
  });
  return toldAll({ ...before, record, pending: before.pending.filter((p) => p !== i) });
}

export function toldAll(before: Ramp): Ramp {
  let ramp = before;
  for (let k = 0; k < ramp.sessions.length; k += 1) {
    const other = ramp.sessions[k];
    if (!other) continue;
    const step = tell(other, standingFor(ramp.record, other.id), START);
    if (step.events.length === 0) continue;
    ramp = replaced(ramp, k, step.state);
    if (!ramp.pending.includes(k)) ramp = settled(ramp, k);
  }
  return ramp;
}

export function recorded(record: AircraftRecord, fact: RecordFact): AircraftRecord {
  return evolveRecord(record, recordEvent(record.seq + 1, fact));
}

function recordEvent(seq: number, fact: RecordFact) {
  const rest = { command: null, digest: null, clientAt: null, cause: null, fact };
  return { v: 1 as const, session: "record", seq, at: START, actor: { kind: "system" as const }, ...rest };
}

function said(state: SessionState, who: keyof typeof PEOPLE, action: Action): SessionState {
  const step = act(state, action, PEOPLE[who], MARK, START);
  if (step.refusal) throw new Error(`${who} ${JSON.stringify(action)}: ${JSON.stringify(step.refusal)}`);
  return step.state;
}

/** A start brought to its end: both engines turn, and nobody will record any more that they stopped. */
function closed(): SessionState {
  let state = stateAt("warmUp");
  const say = (who: keyof typeof PEOPLE, action: Action) => {
    state = said(state, who, action);
  };
  const received = () => {
    const signal = state.signals.at(-1)?.id ?? 0;
    say("cockpit", { type: "answer", signal, answer: "received", channel: "panel" });
  };
  say("cockpit", send("disconnectPower"));
  say("groundPower", send("powerDisconnected"));
  received();
  say("supervisor", { type: "advance", to: "release" });
  say("cockpit", send("removeChocks"));
  say("groundPower", send("chocksOut"));
  received();
  say("supervisor", send("allClear"));
  received();
  say("supervisor", { type: "advance", to: "closed" });
  return state;
}
