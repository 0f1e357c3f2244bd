import { applies, DEFINITIONS } from "../conditions/all.ts";
import { reportOf } from "../conditions/report.ts";
import type { ConditionReport } from "../protocol/conditionReport.ts";
import type { Service, SessionState } from "../session/state.ts";

/** The service's unmet conditions now; empty means the crew may authorise it. */
export function unmetForService(state: SessionState, service: Service, now: number): ConditionReport[] {
  return DEFINITIONS.filter((condition) => applies(state.type, condition, service))
    .map((condition) => reportOf(state, condition, 0, now))
    .filter((r) => r.is !== "yes");
}
