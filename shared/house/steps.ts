import { POSTS, type Post } from "../protocol/posts.ts";

/** The steps of a house to its first start, in order. */
export const HOUSE_STEPS = ["supervisor", "device", "people", "type", "aircraft", "plan"] as const;
export type HouseStepKind = (typeof HOUSE_STEPS)[number];

/** The facts about a house that the steps follow from. The demo's people and their posts do not count. */
export interface HouseFacts {
  /** Enrolled devices that were not revoked. */
  devices: number;
  /** Number of active people who may hold each post. */
  mayHold: Readonly<Record<Post, number>>;
  /** Approved versions of types. */
  approved: number;
  /** Drafts that somebody has yet to approve. */
  drafts: number;
  /** Aircraft that can be planned. */
  plannable: number;
  sessions: number;
}

export interface HouseStep {
  step: HouseStepKind;
  done: boolean;
  /** Posts that nobody may hold yet, of the step about people. */
  lacks: Post[];
  /** True when a second supervisor is still needed: nobody approves their own type. */
  second: boolean;
  /** True when a draft waits for its approval. */
  draft: boolean;
}

/** Returns every step of a house in order, and what each still lacks. */
export function houseSteps(facts: HouseFacts): HouseStep[] {
  const lacks = POSTS.filter((post) => facts.mayHold[post] === 0);
  const second = facts.mayHold.supervisor < 2;
  const done: Readonly<Record<HouseStepKind, boolean>> = {
    supervisor: facts.mayHold.supervisor > 0,
    device: facts.devices > 0,
    people: lacks.length === 0 && !second,
    type: facts.approved > 0,
    aircraft: facts.plannable > 0,
    plan: facts.sessions > 0,
  };
  return HOUSE_STEPS.map((step) => ({
    step,
    done: done[step],
    lacks: step === "people" ? lacks : [],
    second: step === "people" && second,
    draft: step === "type" && facts.drafts > 0,
  }));
}
