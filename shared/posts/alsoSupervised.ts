import type { SessionState } from "../session/state.ts";

/** Returns the state after the session was told of the other aircraft that its supervisor supervises. */
export function alsoSupervised(state: SessionState, aircraft: readonly string[]): SessionState {
  const { supervisesAlso: _before, ...rest } = state;
  return aircraft.length === 0 ? rest : { ...rest, supervisesAlso: [...aircraft] };
}

/** Returns whether the session does not know yet that its supervisor supervises these other aircraft. */
export function isSupervisedNews(state: SessionState, aircraft: readonly string[]): boolean {
  return JSON.stringify(aircraft) !== JSON.stringify(state.supervisesAlso ?? []);
}
