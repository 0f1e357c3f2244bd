import type { EngineLife } from "./life.ts";

/**
 * Returns an engine's life at a moment. A clearance whose time ran out is over before the record says so, as on a panel
 * that no longer hears the server.
 */
export function lifeAt(life: EngineLife, now: number): EngineLife {
  if (life.is === "fire") {
    const under = lifeAt(life.under, now);
    return under === life.under || under.is === "fire" ? life : { ...life, under };
  }
  return life.is === "clear" && now >= life.clearance.expiresAt ? { is: "waiting" } : life;
}
