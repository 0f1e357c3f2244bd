import type { FactOf, SessionEvent } from "../protocol/events.ts";
import { attributionOf } from "../session/attribute.ts";
import type { SessionState } from "../session/state.ts";

/** Returns the state with a piece of equipment as it was shown; one that was planned takes the facts of now. */
export function evolveEquipment(
  state: SessionState,
  event: SessionEvent,
  { equipment: facts }: FactOf<"equipmentShown">,
): SessionState {
  const others = (state.equipment ?? []).filter((e) => e.facts.id !== facts.id);
  return { ...state, equipment: [...others, { facts, shown: attributionOf(event, null) }] };
}
