import type { Action } from "../protocol/commands.ts";
import type { SessionState } from "../session/state.ts";

/** Returns true if a wind that was read lowers confidence: it or its gust is beyond the type's limits. */
export function windLowers(
  state: SessionState,
  { windKt, gustKt }: Extract<Action, { type: "recordWeather" }>,
): boolean {
  const { max, gustMax } = state.type.wind;
  return (windKt ?? 0) > max.value || (gustKt ?? windKt ?? 0) > gustMax.value;
}
