import type { Send } from "../protocol/commands.ts";
import type { SessionState } from "../session/state.ts";
import { accept, refuse, type Verdict } from "../session/verdict.ts";

/** The fire guard's reports. The arc is only clear from a guard who stands where it can be seen. */
export function decideGuard(state: SessionState, send: Send): Verdict {
  if (send.kind === "arcClear" && state.guard?.engine !== send.engine) {
    const where = state.guard ? { found: String(state.guard.engine) } : {};
    return refuse("notAtEngine", { engine: send.engine ?? 0, posts: ["fireGuard"], ...where });
  }
  return accept({ ...send, type: "sent" });
}
