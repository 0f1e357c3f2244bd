import type { Action } from "../../shared/protocol/commands.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { LIVE_STAGES, type Stage } from "../../shared/protocol/stages.ts";
import { decide } from "../../shared/session/decide.ts";
import type { SessionState } from "../../shared/session/state.ts";
import { CREW, ed, START, towards } from "./given.ts";

/** The posts that may do something, the first and the last stage in which they may, and other single stages. */
export type Allowed = readonly [who: string, from: Stage, to: Stage, ...also: Stage[]];

/** C cockpit, F fire guard, G ground power, S supervisor; O is an observer. */
export const LETTER: Readonly<Record<Post, string>> = {
  cockpit: "C",
  fireGuard: "F",
  groundPower: "G",
  supervisor: "S",
};
export const ACTORS: readonly (Post | null)[] = [...POSTS, null];

const standing = new Map<Stage, SessionState>();
export function at(stage: Stage): SessionState {
  const known = standing.get(stage) ?? towards(stage).manned().upTo(stage).state;
  standing.set(stage, known);
  return known;
}

/** Returns the table's refusal; null when it allows the action. */
export function tableSays(action: Action, post: Post | null, stage: Stage): string | null {
  const person = post ? CREW[post] : ed;
  const { refusal } = decide(at(stage), action, { now: START + 3_600_000, person, post });
  return refusal?.reason === "wrongPost" || refusal?.reason === "wrongStage" ? refusal.reason : null;
}

/** Returns the refusal that the rules of the job demand; null where they allow the action. */
export function expected([who, from, to, ...also]: Allowed, post: Post | null, stage: Stage): string | null {
  if (!who.includes(post ? LETTER[post] : "O")) return "wrongPost";
  const [a, b, here] = [from, to, stage].map((s) => LIVE_STAGES.indexOf(s)) as [number, number, number];
  if (also.includes(stage)) return null;
  return here < a || here > b ? "wrongStage" : null;
}

export const cells = LIVE_STAGES.flatMap((stage) => ACTORS.map((post) => ({ stage, post })));
