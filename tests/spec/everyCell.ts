import { expect } from "vitest";
import type { Action } from "../../shared/protocol/commands.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import type { RefusalReason } from "../../shared/protocol/refusals.ts";
import { LIVE_STAGES, type Stage } from "../../shared/protocol/stages.ts";
import { decide } from "../../shared/session/decide.ts";
import type { SessionState } from "../../shared/session/state.ts";
import { CREW, ed, towards } from "./given.ts";

const standing = new Map<string, SessionState>();
/** A session at a stage; bare, or with a clearance of engine 4 and every leave there can be. */
export function at(stage: Stage, leave: boolean): SessionState {
  const key = `${stage} ${leave}`;
  const known = standing.get(key);
  if (known) return known;
  const story = towards(stage, { order: [3] })
    .manned()
    .upTo(stage);
  if (leave) {
    story.brakes();
    // While a leave is out nothing is cleared: the two are tried apart.
    if (stage === "starting") story.readBack(4);
    else
      for (const service of ["connectPower", "disconnectPower", "removeChocks"] as const)
        story.send("cockpit", service);
  }
  standing.set(key, story.state);
  return story.state;
}

const ACTORS: readonly (Post | null)[] = [...POSTS, null];
const NOT_FOR: readonly RefusalReason[] = [
  "wrongPost",
  "wrongStage",
  "noAuthority",
  "tooLate",
  "notWitnessable",
];
export const LONG = 3_600_000;

interface Cell {
  stage: Stage;
  post: Post | null;
  late: boolean;
  leave: boolean;
}
const CELLS: readonly Cell[] = LIVE_STAGES.flatMap((stage) =>
  ACTORS.flatMap((post) =>
    [false, true].flatMap((late) => [false, true].map((leave) => ({ stage, post, late, leave }))),
  ),
);

/** Returns why an action is refused in a cell; undefined where it is taken. */
function refusedIn({ stage, post, late, leave }: Cell, action: Action): RefusalReason | undefined {
  const state = at(stage, leave);
  const { now } = { now: state.at };
  const person = post ? CREW[post] : ed;
  return decide(state, action, { now, person, post }, late ? now - LONG : undefined).refusal?.reason;
}

/** Expects that every post and nobody, in every stage, in time or late, is heard. */
export function expectTaken(action: Action): void {
  for (const cell of CELLS)
    expect({ ...cell, is: refusedIn(cell, action) }).toEqual({ ...cell, is: undefined });
}

export function expectRefusedLate(action: Action): void {
  for (const cell of CELLS) if (cell.late) expect(refusedIn(cell, action)).toBe("tooLate");
}

/** Returns whether somebody is refused in time somewhere, for the post, the stage, the leave or the witness. */
export function isRefusedInTime(action: Action): boolean {
  return CELLS.some((cell) => {
    const reason = cell.late ? undefined : refusedIn(cell, action);
    return reason !== undefined && NOT_FOR.includes(reason);
  });
}

/** Expects that a session that is over takes it from nobody. */
export function expectOver(action: Action): void {
  for (const stage of ["closed", "abandoned"] as const) {
    const state = { ...at("secure", false), stage };
    for (const post of ACTORS) {
      const person = post ? CREW[post] : ed;
      expect(decide(state, action, { now: state.at, person, post }).refusal?.reason).toBe("sessionOver");
    }
  }
}
