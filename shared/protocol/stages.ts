/** Where a start session stands, in the order of the job. `closed` and `abandoned` end it. */
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

/** From the aircraft's being secured to its release: people may be at it. */
export const FROM_SECURE: readonly Stage[] = LIVE_STAGES.filter((s) => s !== "plan" && s !== "brief");

/** The stage after `stage`, or null at the end. `abandoned` is reached by its own command only. */
export function stageAfter(stage: Stage): Stage | null {
  if (stage === "closed" || stage === "abandoned") return null;
  return STAGES[STAGES.indexOf(stage) + 1] ?? null;
}
