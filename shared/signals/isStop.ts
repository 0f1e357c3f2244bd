import type { Action } from "../protocol/commands.ts";
import { signalOf } from "./all.ts";

/** Returns true for the signals that are accepted from anyone at any time: hold, cut, fire, an engine seen turning. */
export function isStop(action: Action): boolean {
  return action.type === "send" && signalOf(action.kind).class === "stop";
}
