import type { Attribution } from "../session/attribution.ts";
import type { SessionState } from "../session/state.ts";
import type { ConditionDefinition, Finding } from "./definition.ts";

/** Returns the seconds for which an answer stays fresh with this type; null where it does not age. */
export function freshSeconds(
  state: SessionState,
  { freshness }: Pick<ConditionDefinition, "freshness">,
): number | null {
  return freshness === null ? null : state.type.timing[freshness].value;
}

/**
 * Returns a report's finding: yes while it is younger than `freshSeconds`, stale after that; with null it never ages.
 */
export function fromReport(said: Attribution, freshSeconds: number | null, now: number): Finding {
  const until = freshSeconds === null ? null : said.at + freshSeconds * 1000;
  return {
    is: until !== null && now >= until ? "stale" : "yes",
    at: said.at,
    by: { post: said.post, name: said.name },
    until,
  };
}

/** Returns the finding of a report that says no. */
export function reportedNo(said: Attribution, found?: string): Finding {
  const by = { post: said.post, name: said.name };
  return { is: "no", at: said.at, by, until: null, ...(found === undefined ? {} : { found }) };
}

export const NOBODY_SAID: Finding = { is: "unknown", at: null, by: null, until: null };
