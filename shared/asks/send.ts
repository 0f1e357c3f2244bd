import type { Send } from "../protocol/commands.ts";
import type { SignalKind } from "../protocol/signals.ts";

/** A signal as a panel sends it. */
export function send(kind: SignalKind, engine?: number): Send {
  return { type: "send", kind, channel: "panel", ...(engine === undefined ? {} : { engine }) };
}
