import { askedOf } from "../../shared/asks/asked.ts";
import { isOver, stopOpen } from "../../shared/session/state.ts";
import type { Panel } from "../posts/shared/model.ts";
import type { Tested } from "./tested.ts";

/**
 * True when the sound test may be offered: the connection is fresh, no stop stands and the start asks nothing of this
 * post.
 */
export function mayTest({ state, post, now, fresh, unrecorded }: Panel): boolean {
  if (!fresh || stopOpen(state) || unrecorded.length > 0) return false;
  return post === null || askedOf(state, post, now).every((a) => a.weight > 2);
}

/** True while the panel asks for the test by itself: once after a post was taken, until it is answered or put off. */
export function asksForTest(panel: Panel, tested: Tested): boolean {
  return panel.post !== null && !isOver(panel.state) && tested === "no" && mayTest(panel);
}
