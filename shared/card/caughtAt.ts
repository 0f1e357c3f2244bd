import { isTurning, plain } from "../engine/life.ts";
import { engineOf, type SessionState } from "../session/state.ts";

/** Returns when a turning engine's starter was released because it caught; null while it cranks or stands still. */
export function caughtAt(state: SessionState, n: number): number | null {
  const engine = engineOf(state, n);
  if (!engine || !isTurning(engine.life) || plain(engine.life).is === "cranking") return null;
  return engine.starter.at(-1)?.off ?? null;
}
