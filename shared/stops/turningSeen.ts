import type { Send } from "../protocol/commands.ts";
import type { SessionState } from "../session/state.ts";
import { accept, type Verdict } from "../session/verdict.ts";
import { knowsEngine, withoutEngine } from "./latch.ts";

/** The verdict on an engine seen turning without clearance. Without an engine that exists, it is a hold. */
export function turningSeen(state: SessionState, send: Send): Verdict {
  return accept(
    knowsEngine(state, send)
      ? { ...send, type: "sent" }
      : { ...withoutEngine(send), kind: "hold", type: "sent" },
  );
}
