import type { Action } from "../protocol/commands.ts";
import type { SessionState } from "../session/state.ts";
import { boundsOf, withinBounds } from "./judge.ts";

type AnswerCard = Extract<Action, { type: "answerCard" }>;

/** Returns true if an answer lowers confidence: not done, not alive, or a figure outside its bounds. */
export function cardLowers(state: SessionState, { item: id, good, reading }: AnswerCard): boolean {
  const item = state.type.card?.find((i) => i.id === id);
  if (!item || item.kind.is === "done" || item.kind.is === "alive") return good === false;
  const bounds = boundsOf(state, item);
  if (!bounds.ok || reading?.unit !== bounds.value.unit) return false;
  return !withinBounds(bounds.value, reading.value);
}
