import { claimOf } from "../../server/evidence/export.ts";
import { RECORD_STAGE, type SessionRow, type StoredEvent } from "../../server/store/events.ts";
import { isForeign } from "../../shared/aircraft/foreign.ts";
import { plain } from "../../shared/engine/life.ts";
import { readSealed } from "../../shared/evidence/read.ts";
import { verify } from "../../shared/evidence/verify.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import { evolve } from "../../shared/session/evolve.ts";
import type { SessionState } from "../../shared/session/state.ts";
import { sha256 } from "../spec/given.ts";
import type { Acked } from "./kill-load.ts";

export interface KillFindings {
  /** The faults in words; empty when there are none. */
  faults: string[];
  events: number;
  restarts: number;
  /** Clearances that were valid when a server was killed. */
  clearancesEnded: number;
  /** Holds that were open when a server was killed. */
  holdsKept: number;
}

/** One session as the database has it. */
export interface Stored {
  row: SessionRow;
  events: StoredEvent[];
}

/** Compares the database with the commands that were acknowledged. */
export function findings(record: readonly Stored[], acked: ReadonlyMap<string, Acked>): KillFindings {
  const found: KillFindings = { faults: [], events: 0, restarts: 0, clearancesEnded: 0, holdsKept: 0 };
  const bearing = new Map<string, SessionEvent[]>();
  for (const { row, events: stored } of record) {
    const lines = stored.map((e) => e.body);
    const verified = verify(lines, claimOf(row), sha256);
    if (!verified.ok) found.faults.push(`session ${row.id}, event ${verified.line}: ${verified.why}`);
    // An aircraft's own record holds no command of a panel.
    if (row.stage === RECORD_STAGE) continue;
    const events = lines.map((line) => readSealed(line).event);
    for (const event of events)
      if (event.command) bearing.set(event.command, [...(bearing.get(event.command) ?? []), event]);
    found.events += events.length;
    lookAtRestarts(events, found);
  }
  for (const [id, { seq, session, action }] of acked) {
    const events = bearing.get(id) ?? [];
    const last = events.at(-1);
    const fault = (why: string) => found.faults.push(`${action.type} ${id}: ${why}`);
    if (!last) fault(`answered with ${seq} but not in the log`);
    else if (last.seq !== seq || last.session !== session)
      fault(`answered with ${seq}, in the log at ${last.seq}`);
  }
  // Every command, answered or not, has its events in one unbroken step, and a signal was sent once.
  for (const [id, events] of bearing) {
    const first = events[0]?.seq ?? 0;
    if (events.some((e, i) => e.seq !== first + i)) found.faults.push(`${id} is in the log in two places`);
    if (events.filter((e) => e.fact.type === "sent").length > 1) found.faults.push(`${id} was sent twice`);
  }
  return found;
}

/** After a restart no earlier clearance is valid, and every earlier hold is open. */
function lookAtRestarts(events: readonly SessionEvent[], found: KillFindings): void {
  const endedElsewhere = new Set<number>();
  let state: SessionState | null = null;
  let before: SessionState | null = null;
  for (const event of events) {
    if (event.fact.type === "restarted") {
      before = state;
      found.restarts += 1;
    } else if (before && state && event.actor.kind === "person") {
      compare(before, state, endedElsewhere, found);
      before = null;
    }
    if (event.fact.type === "aircraftKnown")
      for (const item of event.fact.standing.ended) endedElsewhere.add(item.ref);
    state = evolve(state, event);
  }
  if (before && state) compare(before, state, endedElsewhere, found);
}

function compare(
  before: SessionState,
  after: SessionState,
  endedElsewhere: ReadonlySet<number>,
  found: KillFindings,
): void {
  for (const [i, engine] of before.engines.entries()) {
    if (plain(engine.life).is !== "clear") continue;
    found.clearancesEnded += 1;
    const life = after.engines[i]?.life;
    if (life && plain(life).is === "clear")
      found.faults.push(`a clearance outlived the restart at ${before.seq}`);
  }
  found.holdsKept += before.holds.length;
  // Time may have added holds: a silent post raises one by itself.
  const standing = new Set(after.holds.map((h) => h.id));
  // A hold from another session is that session's to keep; its owner may have released it there before the server died.
  for (const { id } of before.holds)
    if (!standing.has(id) && !isForeign(id) && !endedElsewhere.has(id))
      found.faults.push(`hold ${id} was lost in the restart at ${before.seq}`);
}
