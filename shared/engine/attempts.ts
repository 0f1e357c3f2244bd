import { type Engine, plain } from "./life.ts";

/** Returns how often the starter was engaged since the engine last ran, as far as its uses are kept. */
export function attemptsSinceRun({ starter, lastRanAt }: Engine): number {
  return starter.filter(({ on }) => lastRanAt === null || on > lastRanAt).length;
}

/** Returns true when an attempt of this session failed since the engine last ran: fuel may lie in its cylinders. */
export function failedSinceRun(engine: Engine): boolean {
  const present = plain(engine.life).is === "cranking" ? 1 : 0;
  return Math.min(engine.attempts, attemptsSinceRun(engine)) > present;
}
