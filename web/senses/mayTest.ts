import { askedOf } from "../../shared/asks/asked.ts";
import { stopOpen } from "../../shared/session/state.ts";
import type { Panel } from "../posts/shared/model.ts";

/** The test stands in nobody's way: it is offered while the link holds, no stop stands and nothing of the start is asked. */
export function mayTest({ state, post, now, fresh, unrecorded }: Panel): boolean {
  if (!fresh || stopOpen(state) || unrecorded.length > 0) return false;
  return post === null || askedOf(state, post, now).every((a) => a.weight > 2);
}
