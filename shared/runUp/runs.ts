import { type Engine, plain } from "../engine/life.ts";

/** Returns false for an engine that only cranks, or that caught and has no normal oil pressure yet. */
export function runs({ life }: Engine): boolean {
  const { is } = plain(life);
  return is === "running" || is === "stable";
}
