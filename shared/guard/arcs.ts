import type { SessionState } from "../session/state.ts";

/** The arcs reported not clear: these reports outlive the guard's move, those of a clear arc do not. */
export function arcsNotClear(arcs: SessionState["arcs"]): SessionState["arcs"] {
  return Object.fromEntries(Object.entries(arcs).filter(([, seen]) => !seen.clear));
}
