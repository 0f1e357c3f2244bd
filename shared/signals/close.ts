import type { SignalKind } from "../protocol/signals.ts";
import type { SessionState, Signal } from "../session/state.ts";

const ENDED_KEPT = 12;

/** Returns the state with an ended signal kept among the last ones. */
export function keepEnded(state: SessionState, signal: Signal): SessionState {
  return { ...state, ended: [...state.ended, signal].slice(-ENDED_KEPT) };
}

/** Returns the state with an open signal ended. Ended signals never change again. */
export function closeSignal(
  state: SessionState,
  id: number,
  is: Exclude<Signal["is"], "open">,
): SessionState {
  const signal = state.signals.find((s) => s.id === id);
  if (!signal) return state;
  const rest = { ...state, signals: state.signals.filter((s) => s.id !== id) };
  return keepEnded(rest, { ...signal, is, dueAt: null });
}

/** Returns the state with every open signal of the given kinds closed (and of the engine, if given). */
export function closeKinds(
  state: SessionState,
  kinds: readonly SignalKind[],
  is: Exclude<Signal["is"], "open">,
  engine?: number,
): SessionState {
  return state.signals
    .filter((s) => kinds.includes(s.kind) && (engine === undefined || s.engine === engine))
    .reduce((next, s) => closeSignal(next, s.id, is), state);
}
