import type { SessionState } from "../session/state.ts";
import type { OutService } from "./services.ts";

/** Returns a request of this kind that is still open, or authorised and not yet done. */
export function openRequest(state: SessionState, kind: OutService): boolean {
  const authority = state.authorities[kind];
  return (
    state.signals.some((s) => s.kind === kind) || (authority !== null && authority.epoch === state.epoch)
  );
}
