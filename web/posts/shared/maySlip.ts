import { slipFault, stopGiven } from "../../../shared/stops/slip.ts";
import type { Panel } from "./model.ts";

/** Returns whether this person can take the stop back as a slip now, on this device. */
export function maySlip({ state, me, device, now }: Panel, id: number): boolean {
  const given = stopGiven(state, id);
  return given !== undefined && slipFault(state, given, { id: me.id, device }, now) === null;
}
