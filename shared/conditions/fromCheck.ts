import type { ConditionId } from "../protocol/conditions.ts";
import type { SessionState } from "../session/state.ts";
import type { CheckedCondition, Finding } from "./definition.ts";
import { freshSeconds, NOBODY_SAID } from "./finding.ts";

/** Returns the definition of a condition that one check of the type answers alone. */
export function standsOnCheck<Id extends ConditionId>(
  parts: Omit<CheckedCondition<Id>, "find">,
): CheckedCondition<Id> {
  return { ...parts, find: (state, _engine, now) => fromCheck(state, parts, now) };
}

/** Returns the finding of a check of the type: yes if it is good and recent enough for the condition. */
export function fromCheck(
  state: SessionState,
  condition: Pick<CheckedCondition, "check" | "freshness">,
  now: number,
): Finding {
  const record = state.checks[condition.check];
  if (!record) return NOBODY_SAID;
  const usual = state.type.checks.find((c) => c.id === condition.check)?.post ?? null;
  const by = { post: record.post === undefined ? usual : record.post, name: record.name };
  if (!record.good) return { is: "no", at: record.at, by, until: null };
  const seconds = freshSeconds(state, condition);
  const until = seconds === null ? null : record.at + seconds * 1000;
  return { is: until !== null && now >= until ? "stale" : "yes", at: record.at, by, until };
}

/** The `wanted` of a check on which a clearance depends. */
export function whileStarting(state: SessionState): boolean {
  return state.stage === "starting";
}
