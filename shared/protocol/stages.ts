/** The purpose of a session: from cold to released, or from away to stopped. */
export const PURPOSES = ["start", "return"] as const;
export type Purpose = (typeof PURPOSES)[number];

/** The stages of both courses, each in the order of the job. `closed` and `abandoned` end a session. */
export const STAGES = [
  "plan",
  "brief",
  "secure",
  "powerUp",
  "groundPower",
  "starting",
  "warmUp",
  "release",
  "arrival",
  "stopping",
  "stowing",
  "closed",
  "abandoned",
] as const;
export type Stage = (typeof STAGES)[number];

export const LIVE_STAGES: readonly Stage[] = STAGES.filter((s) => s !== "closed" && s !== "abandoned");

/** The stages in which people may be at the aircraft: from secure to release, and from arrival to stowing. */
export const FROM_SECURE: readonly Stage[] = LIVE_STAGES.filter((s) => s !== "plan" && s !== "brief");

/** A stage that follows another one. `abandoned` is reached only by its own command. */
export type NextStage = Exclude<Stage, "plan" | "abandoned">;

type Course = Readonly<Partial<Record<Stage, NextStage>>>;

const COURSES: Readonly<Record<Purpose, Course>> = {
  start: {
    plan: "brief",
    brief: "secure",
    secure: "powerUp",
    powerUp: "groundPower",
    groundPower: "starting",
    starting: "warmUp",
    warmUp: "release",
    release: "closed",
  },
  return: { plan: "brief", brief: "arrival", arrival: "stopping", stopping: "stowing", stowing: "closed" },
};

/** Returns the stage after `stage` in a session of this purpose, or null at the end. */
export function stageAfter(stage: Stage, purpose: Purpose): NextStage | null {
  return COURSES[purpose][stage] ?? null;
}

/** Returns the stages of a session of this purpose, without its end. */
export function stagesOf(purpose: Purpose): Stage[] {
  const stages: Stage[] = [];
  for (let at: Stage | null = "plan"; at !== null && at !== "closed"; at = stageAfter(at, purpose))
    stages.push(at);
  return stages;
}
