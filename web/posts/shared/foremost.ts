import { PRESENT } from "../../../shared/asks/inOrder.ts";
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
 * The ask to show large. The first in order, but what the person looks at gives way only to something heavier, or of
 * its own weight with a limit where it has none, or where it only asks whether the person is there; while something is being put in, only to danger and alerts.
 */
export function foremost(asks: readonly AskView[], held: Held | null): AskView | undefined {
  const first = asks[0];
  const mine = asks.find((a) => a.key === held?.key);
  if (!held || !first || !mine) return first;
  const sooner =
    first.rank === mine.rank && first.dueAt !== null && (mine.dueAt === null || mine.key === PRESENT);
  const presses = first.rank < mine.rank || sooner;
  const stays = held.over === first.key || !presses || (held.busy && first.rank > PRESSING);
  return stays ? mine : first;
}
