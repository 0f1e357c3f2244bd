import { brakesSet } from "../conditions/brakesSet.ts";
import { cartOutputOff } from "../conditions/cartOutputOff.ts";
import type { Condition } from "../conditions/condition.ts";
import { generatorsCarry } from "../conditions/generatorsCarry.ts";
import { inboardStopped } from "../conditions/inboardStopped.ts";
import type { ConditionReport } from "../protocol/conditionReport.ts";
import type { ConditionId } from "../protocol/conditions.ts";
import type { Service, SessionState } from "../session/state.ts";

/** What must be true before the crew may authorise a service, where the type applies the condition. */
const SERVICE_CONDITIONS: Readonly<Record<Service, readonly Condition[]>> = {
  connectPower: [cartOutputOff],
  disconnectPower: [generatorsCarry],
  insertChocks: [],
  removeChocks: [brakesSet, inboardStopped],
  handlePropeller: [],
};

/** Held to whatever the type says: chocks never come out on brakes nobody vouches for. */
const ALWAYS: readonly ConditionId[] = ["brakesSet"];

/** The service's unmet conditions now; empty means the crew may authorise it. */
export function unmetForService(state: SessionState, service: Service, now: number): ConditionReport[] {
  return SERVICE_CONDITIONS[service]
    .filter((c) => ALWAYS.includes(c.id) || state.type.conditions.includes(c.id))
    .map((c) => {
      const finding = c.find(state, 0, now);
      return { id: c.id, owners: c.owners, ...finding, age: finding.at === null ? null : now - finding.at };
    })
    .filter((r) => r.is !== "yes");
}
