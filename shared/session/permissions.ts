import type { Action, ActionType } from "../protocol/commands.ts";
import { POSTS, type Post } from "../protocol/posts.ts";
import type { SignalKind } from "../protocol/signals.ts";
import { LIVE_STAGES, type Stage } from "../protocol/stages.ts";
import { CATALOGUE } from "../signals/catalogue.ts";

/** Who may ask for what, and in which stages. `anyone` includes a signed-in person who holds no post. */
export interface Permission {
  posts: readonly Post[] | "anyone";
  stages: readonly Stage[];
}

/** An engine may be found turning at any time; what it does then can always be reported. */
const ENGINES_MAY_TURN = LIVE_STAGES;
const FROM_SECURE: readonly Stage[] = ["secure", "powerUp", "groundPower", "starting", "warmUp", "release"];

const SIGNAL_STAGES: Readonly<Record<SignalKind, readonly Stage[]>> = {
  readyToStart: ["starting"],
  clearToStart: ["starting"],
  revokeClearance: ["starting"],
  cranking: ENGINES_MAY_TURN,
  caught: ENGINES_MAY_TURN,
  started: ENGINES_MAY_TURN,
  startAbandoned: ENGINES_MAY_TURN,
  shutDown: ENGINES_MAY_TURN,
  turning: LIVE_STAGES,
  guardInPlace: FROM_SECURE,
  guardAway: FROM_SECURE,
  arcClear: FROM_SECURE,
  arcNotClear: FROM_SECURE,
  hold: LIVE_STAGES,
  release: LIVE_STAGES,
  cut: LIVE_STAGES,
  cutAll: LIVE_STAGES,
  resetCut: LIVE_STAGES,
  fire: LIVE_STAGES,
  fireOut: LIVE_STAGES,
  connectPower: ["powerUp", "groundPower", "starting", "warmUp"],
  powerConnected: ["powerUp", "groundPower", "starting", "warmUp"],
  disconnectPower: FROM_SECURE,
  powerDisconnected: FROM_SECURE,
  insertChocks: FROM_SECURE,
  chocksIn: FROM_SECURE,
  removeChocks: ["warmUp", "release"],
  chocksOut: ["warmUp", "release"],
  handlePropeller: ["secure", "powerUp", "groundPower", "starting"],
  propellerFree: FROM_SECURE,
  brakesSet: FROM_SECURE,
  brakesReleased: FROM_SECURE,
  allClear: ["warmUp", "release"],
  negative: LIVE_STAGES,
};

const ACTIONS: Readonly<Record<Exclude<ActionType, "send">, Permission>> = {
  answer: { posts: POSTS, stages: LIVE_STAGES },
  reading: { posts: ["cockpit", "groundPower"], stages: ENGINES_MAY_TURN },
  giveVoltTrace: { posts: ["groundPower"], stages: ["powerUp", "groundPower", "starting", "warmUp"] },
  recordCheck: { posts: POSTS, stages: LIVE_STAGES },
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
 * The one permission table: action, and for a signal its kind, to posts and stages. A hand signal that another post
 * gave may be recorded by the holder of any post.
 */
export function permissionFor(
  action: Pick<Action, "type"> & { kind?: SignalKind; seenFrom?: Post | undefined },
): Permission {
  if (action.type !== "send" || action.kind === undefined) {
    return ACTIONS[action.type as Exclude<ActionType, "send">];
  }
  const { from, witnessable, stop } = CATALOGUE[action.kind];
  const witnessed = action.seenFrom !== undefined && witnessable && !stop;
  return { posts: witnessed ? POSTS : from, stages: SIGNAL_STAGES[action.kind] };
}

export function mayDo(permission: Permission, post: Post | null): boolean {
  return permission.posts === "anyone" || (post !== null && permission.posts.includes(post));
}
