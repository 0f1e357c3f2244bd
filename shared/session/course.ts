import { settled, unshelved } from "../alerts/evolve.ts";
import { arcsNotClear } from "../guard/arcs.ts";
import { alsoSupervised } from "../posts/alsoSupervised.ts";
import type { FactOf, SessionEvent } from "../protocol/events.ts";
import type { Post } from "../protocol/posts.ts";
import { arrived } from "../stopping/evolve.ts";
import { newEpoch } from "./epoch.ts";
import type { Holder, SessionState } from "./state.ts";

type CourseFact = FactOf<
  "planAmended" | "stageReached" | "briefed" | "postTaken" | "postOffered" | "postLeft"
>;

/** Planned on batteries after ground power was lost: that it is off is meant now. */
function onBatteries({ groundPower }: SessionState, planned: FactOf<"planAmended">["powerSource"]) {
  if (planned !== "batteries" || groundPower.is !== "off") return groundPower;
  return { is: groundPower.is, by: groundPower.by };
}

/** Forgets the supervisor's other aircraft when the post changes hands: the next holder may have others, or none. */
const unlessSupervisor = (state: SessionState, post: Post): SessionState =>
  post === "supervisor" ? alsoSupervised(state, []) : state;

/** Returns the state after an event of the session's course or its people. Every change of post opens a new epoch. */
export function evolveCourse(state: SessionState, event: SessionEvent, fact: CourseFact): SessionState {
  const actor = event.actor;
  switch (fact.type) {
    case "planAmended":
      return {
        ...newEpoch(state),
        order: fact.order ?? state.order,
        powerSource: fact.powerSource ?? state.powerSource,
        groundPower: onBatteries(state, fact.powerSource),
        ...(fact.headingDeg === undefined ? {} : { headingDeg: fact.headingDeg }),
        ...(fact.orderAdvice === undefined ? {} : { orderAdvice: fact.orderAdvice }),
      };
    case "stageReached": {
      const reached = { ...state, stage: fact.stage, stageSince: event.at };
      return fact.stage === "arrival" ? arrived(reached, event) : reached;
    }
    case "briefed": {
      const holder = state.posts[fact.post];
      return holder
        ? { ...state, posts: { ...state.posts, [fact.post]: { ...holder, briefed: true } } }
        : state;
    }
    case "postOffered":
      return {
        ...state,
        offers: {
          ...state.offers,
          [fact.post]: { to: fact.to, by: actor.kind === "person" ? actor.id : "", at: event.at },
        },
      };
    case "postLeft":
      return settled({
        ...newEpoch(unshelved(unlessSupervisor(state, fact.post), fact.post)),
        posts: { ...state.posts, [fact.post]: null },
        offers: { ...state.offers, [fact.post]: null },
        // The guard's reports end when the guard changes, apart from an arc that is not clear.
        ...(fact.post === "fireGuard" ? { guard: null, arcs: arcsNotClear(state.arcs) } : {}),
      });
    case "postTaken": {
      if (actor.kind !== "person") return state;
      const before = state.posts[fact.post];
      const holder: Holder = {
        id: actor.id,
        name: actor.name,
        device: actor.device,
        since: event.at,
        touchedAt: event.at,
        currentUntil: fact.currentUntil ?? null,
        briefed: fact.how === "moved" && before?.briefed === true,
      };
      const sameGuard = fact.post !== "fireGuard" || fact.how === "moved";
      return {
        ...newEpoch(fact.how === "moved" ? state : unshelved(unlessSupervisor(state, fact.post), fact.post)),
        posts: { ...state.posts, [fact.post]: holder },
        offers: { ...state.offers, [fact.post]: null },
        ...(sameGuard ? {} : { guard: null, arcs: arcsNotClear(state.arcs) }),
      };
    }
  }
}
