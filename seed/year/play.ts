import { setImmediate } from "node:timers/promises";
import { between } from "../../shared/partners/chance.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { Fitted } from "../../shared/protocol/fitted.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import type { SessionState } from "../../shared/session/state.ts";
import type { Person } from "../../shared/session/step.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { playing, Stage } from "../crew/stage.ts";
import { demo } from "../demo-data.ts";
import type { YearStart } from "./starts.ts";

/** Steps of play before the server gets a turn: some milliseconds. */
const STEPS = 4;
/** A partner looks this often while nothing happens. Milliseconds of the session. */
const LOOK_MS = 2_500;

/**
 * Plays one start of the invented year through the core, with the scripted crew at every post. It gives way to the
 * server every few steps.
 * @throws Error when the crew could not finish it
 */
export async function playStart(
  { aircraft, at, seed, wear }: YearStart,
  { id, type, fitted }: { id: string; type: AircraftType; fitted: Fitted[] },
): Promise<{ state: SessionState; events: readonly SessionEvent[] }> {
  const crew = crewOf(seed);
  const place = demo.places[seed % demo.places.length] ?? "";
  const stage = new Stage(type, "groundPower", {
    id,
    aircraft,
    place,
    fitted,
    now: at,
    planner: crew("supervisor"),
  });
  for (const post of POSTS) stage.do(crew(post), { type: "claimPost", post });
  const cart = demo.carts[seed % demo.carts.length] ?? "";
  const play = playing(stage, { seed, pace: 1, cart, wear }, { crew, lookMs: LOOK_MS });
  for (let n = 1; ; n += 1) {
    const step = play.next();
    if (step.done) {
      if (step.value !== null) throw new Error(`the invented start of ${aircraft} is ${step.value}`);
      return stage;
    }
    if (n % STEPS === 0) await setImmediate();
  }
}

/** Returns the demo's people at the posts of one start, each at one post. */
function crewOf(seed: number): (post: Post) => Person {
  const taken = new Set<string>();
  const chosen = new Map<Post, Person>();
  for (const post of POSTS) {
    const free = demo.people.filter((p) => p.mayHold.includes(post) && !taken.has(p.id));
    const who = free[Math.floor(between(0, free.length, seed, "crew", post))] ?? free[0];
    if (!who) throw new Error(`the demo has nobody for ${post}`);
    taken.add(who.id);
    const { id, name, mayHold } = who;
    chosen.set(post, { id, name, mayHold, device: `invented-year-${post}`, currentUntil: null });
  }
  return (post) => chosen.get(post) as Person;
}
