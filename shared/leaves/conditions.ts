import { applies, DEFINITIONS } from "../conditions/all.ts";
import { reportOf } from "../conditions/report.ts";
import type { ConditionReport } from "../protocol/conditionReport.ts";
import type { SessionState } from "../session/state.ts";
import type { Service } from "./services.ts";

/**
 * Returns the unmet conditions of a service now; empty means that the crew may authorise it. Of hands on a
 * propeller, for that engine.
 */
export function unmetForService(
  state: SessionState,
  service: Service,
  now: number,
  engine = 0,
): ConditionReport[] {
  return DEFINITIONS.filter((condition) => applies(state.type, condition, service))
    .map((condition) => reportOf(state, condition, engine, now))
    .filter((r) => r.is !== "yes");
}
