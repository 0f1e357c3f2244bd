import type { Action } from "../protocol/commands.ts";
import { signalOf } from "./all.ts";

/** True for the messages that are taken from anyone at any time: hold, cut, fire, an engine seen turning. */
export function isStop(action: Action): boolean {
  return action.type === "send" && signalOf(action.kind).stop;
}
