import { postFor } from "../checks/post.ts";
import { overriddenBy } from "../overrides/overridden.ts";
import type { ConditionReport } from "../protocol/conditionReport.ts";
import type { Post } from "../protocol/posts.ts";
import type { SessionState } from "../session/state.ts";
import type { ConditionDefinition, Finding } from "./definition.ts";

/** Returns the posts that can meet the condition in this start. */
export function ownersOf(state: SessionState, condition: ConditionDefinition): readonly Post[] {
  if (condition.check === undefined) return condition.owners;
  const check = state.type.checks.find((c) => c.id === condition.check);
  return [check ? postFor(state, check) : "supervisor"];
}

/** Returns one condition's finding as people see it. */
export function reportOf(
  state: SessionState,
  condition: ConditionDefinition,
  engine: number,
  now: number,
): ConditionReport {
  return reported(state, condition, condition.find(state, engine, now), now);
}

function reported(
  state: SessionState,
  condition: ConditionDefinition,
  finding: Finding,
  now: number,
): ConditionReport {
  const age = finding.at === null ? null : now - finding.at;
  return { id: condition.id, owners: ownersOf(state, condition), ...finding, age };
}

/** Returns the same, but `overridden` where it is not met and two people set it aside for this engine's clearance. */
export function clearanceReport(
  state: SessionState,
  condition: ConditionDefinition,
  engine: number,
  now: number,
): ConditionReport {
  const finding = condition.find(state, engine, now);
  const report = reported(state, condition, finding, now);
  const aside = finding.is !== "yes" && overriddenBy(state, condition.id, engine, finding, now);
  return aside ? { ...report, is: "overridden" } : report;
}
