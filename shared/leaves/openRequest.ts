import type { SessionState } from "../session/state.ts";

/** Returns a request of this kind that is still open, or authorised and not yet done. */
export function openRequest(
  state: SessionState,
  kind: "connectPower" | "disconnectPower" | "removeChocks",
): boolean {
  const authority = state.authorities[kind];
  return (
    state.signals.some((s) => s.kind === kind) || (authority !== null && authority.epoch === state.epoch)
  );
}
