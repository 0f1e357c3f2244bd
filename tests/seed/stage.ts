import { type Instead, playing, type Stage, type Until } from "../../seed/crew/stage.ts";
import type { Script } from "../../shared/partners/script.ts";

/** Lets four partners play until the session is over or there. Returns the place where they are stuck, if they are. */
export function playOut(
  stage: Stage,
  script: Script,
  until?: Until,
  instead?: Instead,
  lookMs?: number,
): string | null {
  const play = playing(stage, script, { until, instead, lookMs });
  for (let step = play.next(); ; step = play.next()) if (step.done) return step.value;
}
