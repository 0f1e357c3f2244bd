import { PRESENT } from "../../../shared/asks/inOrder.ts";
import type { AskView } from "../../ui/askView.ts";

/** The ask on display, and the reasons why it may stay. */
export interface Held {
  key: string;
  /** Key of the ask that was first when the person opened this one; it does not replace the person's choice. */
  over: string | null;
  /** True while the person enters something for it. */
  busy: boolean;
}

/** Largest rank that interrupts an entry: danger (0) and alert (1). */
const PRESSING = 1;

/**
 * Returns the ask to show large: normally the first. The displayed ask gives way only to one of a lower rank, or to
 * one of the same rank with a time limit when it has none itself or only asks whether the person is present. During
 * an entry only danger and alerts interrupt.
 */
export function foremost(asks: readonly AskView[], held: Held | null): AskView | undefined {
  const first = asks[0];
  const mine = asks.find((a) => a.key === held?.key);
  if (!held || !first || !mine) return first;
  const sooner =
    first.rank === mine.rank && (mine.key === PRESENT || (first.dueAt !== null && mine.dueAt === null));
  const presses = first.rank < mine.rank || sooner;
  const stays = held.over === first.key || !presses || (held.busy && first.rank > PRESSING);
  return stays ? mine : first;
}
