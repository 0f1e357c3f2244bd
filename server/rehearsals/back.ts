import type { SessionEvent } from "../../shared/protocol/events.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { isPartner, REHEARSAL_CODE, REHEARSAL_ID } from "../../shared/protocol/rehearsal.ts";
import type { Course } from "../../shared/rehearsal/course.ts";
import { momentEnd, retell } from "../../shared/rehearsal/retell.ts";
import { evolve } from "../../shared/session/evolve.ts";
import type { SessionState } from "../../shared/session/state.ts";
import type { RehearsalPlanDeps } from "./plan.ts";
import { eventsOf, type RecordDeps, rebuilt } from "./records.ts";
import { NoRehearsal } from "./refused.ts";

/** A rehearsal that is ready to begin at a moment of another. */
export interface Retold {
  id: string;
  code: string;
  /** Its record so far, retold from the other. */
  events: SessionEvent[];
  /** The same as state and world. */
  course: Course;
  /** The last event of the other that is retold. */
  seq: number;
}

/**
 * Returns a rehearsal that begins at a moment of another. Nothing is recorded yet.
 * @throws NoRehearsal when the other has no such moment, or its world cannot be rebuilt from its record
 */
export async function retoldFrom(
  deps: Pick<RehearsalPlanDeps, "clock" | "ids"> & RecordDeps,
  from: string,
  moment: number,
): Promise<Retold> {
  const { store, clock, ids } = deps;
  const all = await eventsOf(deps, from);
  if (moment > all.length) throw new NoRehearsal("faultyPlan", `its record ends with event ${all.length}`);
  const seq = momentEnd(all, moment);
  let code = `${REHEARSAL_CODE}${ids.code()}`;
  while (await store.sessionByCode(code)) code = `${REHEARSAL_CODE}${ids.code()}`;
  const id = `${REHEARSAL_ID}${ids.session()}`;
  const events = retell(all, seq, { session: id, code, now: clock.now() });
  const world = await rebuilt(events);
  if (!world.ok) throw new NoRehearsal("faultyPlan", "its aircraft cannot be rebuilt from its record");
  return { id, code, events, course: world.course, seq };
}

/** Records what is retold. */
export async function recordRetold({ sessions }: Pick<RehearsalPlanDeps, "sessions">, retold: Retold) {
  const { code, id, events } = retold;
  const [first, ...rest] = events;
  if (!first) throw new Error("a record begins with its plan");
  const base = { code, planCommand: `${id}-plan`, createdAt: first.at };
  await sessions.begin(base, { state: evolve(null, first), events: [first] });
  const live = await sessions.get(id);
  await live.run((draft) => {
    if (draft.state.seq !== 1) throw new Error("something was recorded before what is retold");
    draft.take({ state: rest.reduce(evolve, draft.state), events: rest });
  });
}

/**
 * Returns the posts whose holders of that moment are not at the rehearsal any more, or that a partner held and a person
 * holds now: the new rehearsal keeps them for people.
 */
export function postsToVacate(then: SessionState, now: SessionState): Post[] {
  const there = POSTS.flatMap((post) => now.posts[post]?.id ?? []);
  return POSTS.filter((post) => {
    const held = then.posts[post];
    if (held === null) return false;
    const holds = now.posts[post];
    return isPartner(held.id) ? holds !== null && !isPartner(holds.id) : !there.includes(held.id);
  });
}
