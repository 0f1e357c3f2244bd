import { canonical } from "../../shared/evidence/canonical.ts";
import { planBar } from "../../shared/house/planBar.ts";
import { usualOrder } from "../../shared/plan/usualOrder.ts";
import type { FactOf } from "../../shared/protocol/events.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { REHEARSAL_CODE, REHEARSAL_ID, rehearsedAircraft } from "../../shared/protocol/rehearsal.ts";
import type { RehearsalScript } from "../../shared/rehearsal/script.ts";
import { type Person, plan } from "../../shared/session/step.ts";
import type { Clock } from "../clock.ts";
import { barWords } from "../house/bar-words.ts";
import type { Ids } from "../sessions/planning.ts";
import type { Sessions } from "../sessions/sessions.ts";
import { sharedType } from "../sessions/shared-type.ts";
import { sha256 } from "../sha256.ts";
import type { Directory } from "../store/directory.ts";
import type { EventStore } from "../store/events.ts";
import type { TypeSeals } from "../types/seals.ts";
import { NoRehearsal } from "./refused.ts";

/** A rehearsal as a person asks for it. */
export interface RehearsalInput {
  commandId: string;
  /** The registration of the aircraft to rehearse. */
  aircraft: string;
  script: RehearsalScript;
  seed: number;
}

export interface RehearsalPlanDeps {
  directory: Directory;
  store: EventStore;
  sessions: Sessions;
  clock: Clock;
  ids: Ids;
  seals: Pick<TypeSeals, "usable">;
}

/**
 * Plans a rehearsal of an aircraft of the house, and records it as event 1 of a session of its own. It looks up the
 * type that the aircraft is operated by, and nothing else of the aircraft: no defect, no equipment, no record.
 * @throws NoRehearsal when the house has no such aircraft, or it cannot be planned
 */
export async function planRehearsal(
  deps: RehearsalPlanDeps,
  person: Person,
  { commandId, aircraft: id, script, seed }: RehearsalInput,
): Promise<{ id: string; code: string }> {
  const { directory, store, sessions, clock, ids } = deps;
  const aircraft = (await directory.register.one("aircraft", id))?.body;
  if (!aircraft) throw new NoRehearsal("faultyPlan", "no such aircraft");
  const usable = await deps.seals.usable(aircraft.typeId);
  if (!usable) throw new NoRehearsal("faultyPlan", "its type has no approved version");
  if ("why" in usable) throw new NoRehearsal("faultyPlan", usable.why);
  const bar = planBar(aircraft, await directory.types());
  if (bar) throw new NoRehearsal("faultyPlan", barWords(bar));
  const { type, seal } = usable;
  let code = `${REHEARSAL_CODE}${ids.code()}`;
  while (await store.sessionByCode(code)) code = `${REHEARSAL_CODE}${ids.code()}`;
  const fact: FactOf<"planned"> = {
    type: "planned",
    aircraft: rehearsedAircraft(aircraft.id, code),
    place: aircraft.stand ?? aircraft.id,
    rehearsal: { seed, script: script.id, of: aircraft.id, played: script },
    aircraftType: sharedType(type),
    typeSeal: seal,
    order: usualOrder(type, "start"),
    powerSource: "groundPower",
    crew: Object.fromEntries(POSTS.map((post) => [post, null])) as Record<Post, null>,
  };
  const now = clock.now();
  const session = `${REHEARSAL_ID}${ids.session()}`;
  const mark = { id: commandId, digest: sha256(canonical({ id, script: script.id, seed })), clientAt: now };
  await sessions.begin(
    { code, planCommand: commandId, createdAt: now },
    plan(session, fact, person, mark, now),
  );
  return { id: session, code };
}
