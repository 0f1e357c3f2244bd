import type { Hold, SessionState } from "../session/state.ts";

/** Returns the server milliseconds from which the supervisor may release a hold whose owner holds no post. */
export function supervisorMayAt(state: SessionState, hold: Hold): number {
  const limit = state.type.timing.bystanderHold;
  const bystander = hold.by.post === null && hold.person !== null;
  return bystander && limit ? hold.by.at + limit.value * 1000 : hold.by.at;
}

export function holdsAnyPost(state: SessionState, person: string | null): boolean {
  return Object.values(state.posts).some((h) => h !== null && h.id === person);
}
