import type { Outcome } from "../../shared/models/outcome.ts";

/** The value of an outcome a test takes for granted; its refusal's words otherwise. */
export function must<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(outcome.why);
  return outcome.value;
}
