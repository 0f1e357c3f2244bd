/** The stages of a session, in the order of the job. `closed` and `abandoned` end it. */
export const STAGES = [
  "plan",
  "brief",
  "secure",
  "powerUp",
  "groundPower",
  "starting",
  "warmUp",
  "release",
  "closed",
  "abandoned",
] as const;
export type Stage = (typeof STAGES)[number];

export const LIVE_STAGES: readonly Stage[] = STAGES.filter((s) => s !== "closed" && s !== "abandoned");

/** The stages in which people may be at the aircraft: from secure to release. */
export const FROM_SECURE: readonly Stage[] = LIVE_STAGES.filter((s) => s !== "plan" && s !== "brief");

/** A stage that follows another one. `abandoned` is reached only by its own command. */
export type NextStage = Exclude<Stage, "plan" | "abandoned">;

const AFTER: Readonly<Record<Stage, NextStage | null>> = {
  plan: "brief",
  brief: "secure",
  secure: "powerUp",
  powerUp: "groundPower",
  groundPower: "starting",
  starting: "warmUp",
  warmUp: "release",
  release: "closed",
  closed: null,
  abandoned: null,
};

/** The stage after `stage`, or null at the end. */
export function stageAfter(stage: Stage): NextStage | null {
  return AFTER[stage];
}
