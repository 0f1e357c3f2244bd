import { readSealed } from "../../shared/evidence/read.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import { isRehearsalId } from "../../shared/protocol/rehearsal.ts";
import { signalOf } from "../../shared/signals/all.ts";
import { firstOf } from "../evidence/leaves.ts";
import { tracesOf } from "../personal/personal-data.ts";
import type { Directory, PersonRecord } from "../store/directory.ts";
import type { EventStore, SessionRow } from "../store/events.ts";
import { type Kept, keptUntil, type Periods } from "./rule.ts";

/**
 * Returns the ids of sign-ins that ended and are past their period. The last one of each person stays, because it
 * shows how long the person has been away.
 */
export async function expiredSignIns(directory: Directory, months: number, now: number): Promise<string[]> {
  const found: string[] = [];
  for (const person of await directory.people()) {
    const all = await directory.personal.signIns(person.id);
    const [, ...others] = all.sort((a, b) => b.usedAt - a.usedAt || b.createdAt - a.createdAt);
    for (const { id, expiresAt, revokedAt } of others)
      if (keptUntil(Math.min(expiresAt, revokedAt ?? expiresAt), months) <= now) found.push(id);
  }
  return found;
}

/** A session or person past the retention period. */
export type Expired = { kept: Exclude<Kept, "signIns" | "pictures">; until: number } & (
  | { session: SessionRow }
  | { person: PersonRecord }
);

/**
 * Returns closed sessions and inactive people past their period. An aircraft's newest session always stays: the next
 * plan takes over its open defects.
 */
export async function expired(
  store: EventStore,
  directory: Directory,
  periods: Periods,
  now: number,
): Promise<Expired[]> {
  const found: Expired[] = [];
  const all = Number.MAX_SAFE_INTEGER;
  const rows = [...(await store.sessions(all)), ...(await store.rehearsals(all))];
  const newest = new Set<string>();
  for (const row of rows) {
    const isNewest = !isRehearsalId(row.id) && !newest.has(row.aircraft);
    newest.add(row.aircraft);
    if (isNewest || row.closedAt === null) continue;
    const kept = (await isIncident(store, row)) ? "incidents" : "sessions";
    const until = keptUntil(row.closedAt, periods[kept]);
    if (until <= now) found.push({ kept, until, session: row });
  }
  for (const person of await directory.people()) {
    if (person.active) continue;
    const until = keptUntil(await lastSeen(store, directory, person), periods.people);
    if (until <= now) found.push({ kept: "people", until, person });
  }
  return found;
}

async function isIncident(store: EventStore, row: SessionRow): Promise<boolean> {
  for await (const { body } of firstOf(store, row.id, row.headSeq))
    if (tellsOfIncident(readSealed(body).event)) return true;
  return false;
}

function tellsOfIncident({ fact }: SessionEvent): boolean {
  return fact.type === "exceeded" || (fact.type === "sent" && signalOf(fact.kind).incident);
}

/** Returns the time of the person's last event or sign-in, or of their creation. */
async function lastSeen(store: EventStore, directory: Directory, person: PersonRecord): Promise<number> {
  const signIns = await directory.personal.signIns(person.id);
  let last = Math.max(person.createdAt, ...signIns.map((s) => s.usedAt));
  for await (const { lastAt } of tracesOf(store, person.id)) last = Math.max(last, lastAt);
  return last;
}
