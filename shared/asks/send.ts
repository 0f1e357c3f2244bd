import type { Send } from "../protocol/commands.ts";
import type { SignalKind } from "../protocol/signals.ts";

/** Returns the action that sends a signal from a panel. */
export function send(kind: SignalKind, engine?: number): Send {
  return { type: "send", kind, channel: "panel", ...(engine === undefined ? {} : { engine }) };
}
