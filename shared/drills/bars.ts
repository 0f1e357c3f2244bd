import type { DrillRun, SessionState } from "../session/state.ts";
import type { Bars, Drill, Trigger } from "../types/drill.ts";

/**
 * Triggers after which an engine must not start before a person has looked. They apply also to a type without `bars`.
 */
const BARRING: readonly Trigger[] = ["alert:oilFirstLate", "alert:oilNormalLate", "blades:resistance"];

/** Returns what the drill bars while it is open. */
export function barsOf(drill: Drill): Bars {
  return drill.bars ?? (drill.triggers.some((t) => BARRING.includes(t)) ? "engine" : "nothing");
}

/**
 * Returns the first open drill that bars a start of the engine. A drill that was opened for no particular engine bars
 * every engine.
 */
export function barringDrill(
  state: SessionState,
  engine: number,
): { run: DrillRun; drill: Drill } | undefined {
  for (const run of state.drills) {
    const drill = state.type.drills.find((d) => d.id === run.drill);
    if (!drill) continue;
    const bars = barsOf(drill);
    const here = bars === "all" || run.engine === null || run.engine === engine;
    if (bars !== "nothing" && here) return { run, drill };
  }
  return undefined;
}
