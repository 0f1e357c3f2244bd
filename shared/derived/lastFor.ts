import { onceFor } from "./onceFor.ts";

/**
 * Returns a function that keeps what it worked out last for each state: every post and panel asks for the same at the
 * same moment. The state must never change, and nobody may change the value.
 */
export function lastFor<State extends object, Value>(
  work: (state: State, now: number) => Value,
): (state: State, now: number) => Value {
  const lastOf = onceFor((_state: State): { last?: { now: number; value: Value } } => ({}));
  return (state, now) => {
    const kept = lastOf(state);
    if (kept.last?.now !== now) kept.last = { now, value: work(state, now) };
    return kept.last.value;
  };
}
