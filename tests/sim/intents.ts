import { postHeld } from "../../shared/posts/postHeld.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import type { SessionState } from "../../shared/session/state.ts";
import type { Person, Say } from "../spec/given.ts";
import type { Chance } from "./chance.ts";

/**
 * Returns an action beside the start itself: hand a post over or take one, come back on another tablet, set a condition
 * aside, work a drill, show presence. Null when none of these is possible now.
 */
export function intent(
  state: SessionState,
  who: Person,
  people: readonly Person[],
  chance: Chance,
): Say | null {
  const held = postHeld(state, who);
  if (held === null) {
    const mine = POSTS.find((p) => state.posts[p]?.id === who.id);
    if (mine) return { type: "claimPost", post: mine };
    const offered = POSTS.find((p) => state.offers[p]?.to === who.id);
    if (offered) return { type: "acceptPost", post: offered };
    const vacant = POSTS.find((p) => state.posts[p] === null && who.mayHold.includes(p));
    return vacant ? { type: "claimPost", post: vacant } : null;
  }
  if (state.posts[held]?.briefed === false) return { type: "confirmBrief" };
  const die = chance.below(10);
  if (die < 3) {
    const free = people.filter(
      (p) => p.mayHold.includes(held) && !POSTS.some((post) => state.posts[post]?.id === p.id),
    );
    const to = free[chance.below(Math.max(1, free.length))];
    return to ? { type: "offerPost", post: held, to: to.id } : null;
  }
  if (die < 6) {
    const asked = state.overrides.find((o) => o.second === null && o.first.person !== who.id);
    const { overridable } = state.type;
    const condition = asked?.condition ?? overridable[chance.below(Math.max(1, overridable.length))];
    const engine = asked?.engine ?? state.order[chance.below(state.order.length)];
    return condition && engine ? { type: "override", condition, engine, reason: "as agreed" } : null;
  }
  if (die < 8) {
    const run = state.drills[chance.below(Math.max(1, state.drills.length))];
    const step = run ? run.steps[held].indexOf(null) : -1;
    if (run && step >= 0) return { type: "drillStep", run: run.id, step, done: chance.is(0.8) };
    const { drills } = state.type;
    const drill = drills[chance.below(Math.max(1, drills.length))];
    return drill ? { type: "startDrill", drill: drill.id } : null;
  }
  return { type: "present" };
}
