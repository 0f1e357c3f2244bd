import { DEFINITIONS } from "../conditions/all.ts";
import type { ConditionId } from "../protocol/conditions.ts";

/** These need more than a blank type has: a card, a number of attempts, or engines that may be stopped again. */
const NEED_MORE: readonly ConditionId[] = ["attemptsLeft", "cardAnswered", "inboardStopped"];

/**
 * Returns the conditions with which a type begins that is entered from nothing: every one that needs no check of the
 * type. Its author takes out what the aircraft cannot have, so that forgetting makes a start stricter.
 */
export function blankConditions(): ConditionId[] {
  return DEFINITIONS.filter((c) => c.check === undefined && !NEED_MORE.includes(c.id)).map((c) => c.id);
}
