import { type Choice, choice } from "../asks/ask.ts";
import type { SessionState } from "../session/state.ts";

/** Returns the choice to read one gauge, of an engine or of the aircraft. */
export function reading(state: SessionState, gauge: string, engine: number | null): Choice {
  const unit = state.type.gauges.find((g) => g.id === gauge)?.unit ?? "count";
  return choice(
    "read",
    "yes",
    { type: "reading", gauge, ...(engine === null ? {} : { engine }) },
    { is: "figure", field: "reading", unit },
  );
}
