import type { AskView } from "../../ui/askView.ts";

/** What stands before the person, and why it may stay there. */
export interface Held {
  key: string;
  /** The person brought it up in sight of this one, which therefore does not take its place. */
  over: string | null;
  /** Something is being put in for it. */
  busy: boolean;
}

/** Up to this rank (danger, alert) something new comes before whatever is being put in. */
const PRESSING = 1;

/**
 * The ask to show large. The first in order, but nothing new of equal weight takes the place of what the person is
 * looking at, and while something is being put in only danger and alerts do: a key must not change under a finger.
 */
export function foremost(asks: readonly AskView[], held: Held | null): AskView | undefined {
  const first = asks[0];
  const mine = asks.find((a) => a.key === held?.key);
  if (!held || !first || !mine) return first;
  const stays = held.over === first.key || first.rank >= mine.rank || (held.busy && first.rank > PRESSING);
  return stays ? mine : first;
}
