import type { Outcome } from "../../shared/models/outcome.ts";

/**
 * Returns the value of an outcome that a test expects.
 * @throws Error with the refusal's words
 */
export function must<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(outcome.why);
  return outcome.value;
}
