import type { Engine } from "./life.ts";

/** Returns how often the starter was engaged since the engine last ran, as far as its uses are kept. */
export function attemptsSinceRun({ starter, lastRanAt }: Engine): number {
  return starter.filter(({ on }) => lastRanAt === null || on > lastRanAt).length;
}
