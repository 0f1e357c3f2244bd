import { engineOf, type SessionState } from "../session/state.ts";

/** The first engine of the planned order that is not yet stable, null when all are. */
export function nextInOrder(state: SessionState): number | null {
  return state.order.find((n) => engineOf(state, n)?.life.is !== "stable") ?? null;
}
