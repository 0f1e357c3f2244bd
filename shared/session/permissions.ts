import type { Action, ActionType } from "../protocol/commands.ts";
import { POSTS, type Post } from "../protocol/posts.ts";
import type { SignalKind } from "../protocol/signals.ts";
import { FROM_SECURE, LIVE_STAGES, type Stage } from "../protocol/stages.ts";
import { signalOf } from "../signals/all.ts";

/** The posts that may do something, and the stages. `anyone` includes a signed-in person who holds no post. */
export interface Permission {
  posts: readonly Post[] | "anyone";
  stages: readonly Stage[];
}

const ACTIONS: Readonly<Record<Exclude<ActionType, "send">, Permission>> = {
  answer: { posts: POSTS, stages: LIVE_STAGES },
  reading: { posts: ["cockpit", "groundPower"], stages: LIVE_STAGES },
  giveVoltTrace: { posts: ["groundPower"], stages: ["powerUp", "groundPower", "starting", "warmUp"] },
  recordCheck: { posts: POSTS, stages: LIVE_STAGES },
  answerCard: { posts: "anyone", stages: LIVE_STAGES },
  readCard: { posts: "anyone", stages: LIVE_STAGES },
  showEquipment: { posts: POSTS, stages: LIVE_STAGES },
  claimPost: { posts: "anyone", stages: LIVE_STAGES },
  leavePost: { posts: POSTS, stages: LIVE_STAGES },
  offerPost: { posts: POSTS, stages: LIVE_STAGES },
  acceptPost: { posts: "anyone", stages: LIVE_STAGES },
  vacatePost: { posts: "anyone", stages: LIVE_STAGES },
  confirmBrief: { posts: POSTS, stages: ["brief", ...FROM_SECURE] },
  amendPlan: { posts: ["supervisor", "cockpit"], stages: ["plan", "brief", ...FROM_SECURE] },
  advance: { posts: ["supervisor", "cockpit"], stages: LIVE_STAGES },
  abandon: { posts: ["supervisor", "cockpit"], stages: LIVE_STAGES },
  acknowledgeAlert: { posts: POSTS, stages: LIVE_STAGES },
  shelveAlert: { posts: POSTS, stages: LIVE_STAGES },
  present: { posts: POSTS, stages: LIVE_STAGES },
  delivered: { posts: POSTS, stages: LIVE_STAGES },
  override: { posts: ["cockpit", "supervisor"], stages: ["starting"] },
  countBlades: {
    posts: ["fireGuard", "groundPower"],
    stages: ["secure", "powerUp", "groundPower", "starting"],
  },
  recordWeather: { posts: ["supervisor", "cockpit"], stages: LIVE_STAGES },
  recordFlash: { posts: POSTS, stages: LIVE_STAGES },
  recordRunUp: { posts: ["cockpit"], stages: ["warmUp"] },
  writeDefect: { posts: POSTS, stages: LIVE_STAGES },
  closeDefect: { posts: ["supervisor"], stages: LIVE_STAGES },
  startDrill: { posts: POSTS, stages: LIVE_STAGES },
  drillStep: { posts: POSTS, stages: LIVE_STAGES },
  endDrill: { posts: ["supervisor", "cockpit"], stages: LIVE_STAGES },
};

/**
 * Returns the posts and stages for an action, and for a signal by its kind. This is the only table of permissions. The
 * holder of any post may record a hand signal that another post gave. A stop, and a kind that lowers confidence, may
 * come from anybody at any time. The table does not apply to what lowers confidence only by what it says (`saidAs`).
 */
export function permissionFor(
  action: Pick<Action, "type"> & { kind?: SignalKind; seenFrom?: Post | undefined },
): Permission {
  if (action.type !== "send" || action.kind === undefined) {
    return ACTIONS[action.type as Exclude<ActionType, "send">];
  }
  const { from, stages, witnessable, class: is } = signalOf(action.kind);
  if (is !== "raises") return { posts: "anyone", stages: LIVE_STAGES };
  const witnessed = action.seenFrom !== undefined && witnessable;
  return { posts: witnessed ? POSTS : from, stages };
}

export function mayDo(permission: Permission, post: Post | null): boolean {
  return permission.posts === "anyone" || (post !== null && permission.posts.includes(post));
}
