import { mkdirSync } from "node:fs";
import { dirname } from "node:path";
import { personAt, Stage } from "../../seed/crew/stage.ts";
import { demo } from "../../seed/demo-data.ts";
import { rowOf } from "../../server/sessions/row.ts";
import { sha256 } from "../../server/sha256.ts";
import { openDatabase } from "../../server/store/open.ts";
import { SqliteEventStore } from "../../server/store/sqlite-events.ts";
import { genesis, seal } from "../../shared/evidence/chain.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { SessionState } from "../../shared/session/state.ts";
import { playOut } from "../seed/stage.ts";

export interface Log {
  state: SessionState;
  events: readonly SessionEvent[];
}

function stage(): Stage {
  const four = demo.types.find((t) => t.engines.length === 4);
  if (!four) throw new Error("the demo has a four-engine type");
  const made = new Stage(four, "groundPower");
  made.everyoneClaims();
  return made;
}

/** Returns the events of a whole four-engine start played by the scripted partners. */
export function wholeStart(): Log {
  const played = stage();
  const stuck = playOut(played, { seed: 3, pace: 1, cart: "Bal Maiden" });
  if (stuck !== null) throw new Error(stuck);
  return played;
}

/** Returns the events of an open session with at least this many. */
export function longSession(least: number): Log {
  const long = stage();
  while (long.events.length < least) {
    long.now += 1_000;
    long.do(personAt("cockpit"), { type: "send", kind: "negative", channel: "panel", note: "load" });
  }
  return long;
}

/** Writes a log into a database file as this many sessions, each with its own chain. Returns their ids. */
export async function store(file: string, log: Log, copies: number, prefix: string): Promise<string[]> {
  mkdirSync(dirname(file), { recursive: true });
  const events = new SqliteEventStore(openDatabase(file, Date.now()));
  const ids = Array.from({ length: copies }, (_, i) => `${prefix}-${i}`);
  for (const id of ids) {
    let head = genesis(id, sha256);
    const sealed = log.events.map((event) => {
      const one = seal({ ...event, session: id }, head, sha256);
      head = one.hash;
      return { ...one, at: event.at, command: event.command, type: event.fact.type };
    });
    const base = { code: id, planCommand: `plan-${id}`, createdAt: log.events[0]?.at ?? 0 };
    await events.append({ expected: 0, events: sealed, row: rowOf(base, { ...log.state, id }, head) });
  }
  await events.close();
  return ids;
}
