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

/** The stage after `stage`, or null at the end. `abandoned` is reached by its own command only. */
export function stageAfter(stage: Stage): Stage | null {
  if (stage === "closed" || stage === "abandoned") return null;
  return STAGES[STAGES.indexOf(stage) + 1] ?? null;
}
