import { isGood, placesAt } from "../card/places.ts";
import { inStart } from "../checks/inStart.ts";
import { checkApplies } from "../checks/preheat.ts";
import { groundPowerKnown } from "../conditions/power.ts";
import { bladesCounted } from "../conditions/propellers.ts";
import { brakesSet, chocksIn } from "../conditions/wheels.ts";
import { isTurning } from "../engine/life.ts";
import { neededPosts } from "../posts/needed.ts";
import { gatesShort } from "../runUp/gates.ts";
import { releaseVerdict, runUpFault } from "../runUp/verdict.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { toStop } from "../stopping/requirements.ts";
import { type Requirement, requirementCode } from "./requirement.ts";

/**
 * Returns the requirements that are still to be met before the session may leave its stage. Empty when it may leave.
 */
export function requirementsOf(state: SessionState, now: number): Requirement[] {
  return [...ofStage(state, now), ...ofChecks(state, now)];
}

/** Returns the same as codes for a refusal. */
export function missingFor(state: SessionState, now: number): string[] {
  return requirementsOf(state, now).map(requirementCode);
}

function ofChecks(state: SessionState, now: number): Requirement[] {
  return state.type.checks
    .filter((c) => c.stage === state.stage && state.checks[c.id]?.good !== true)
    .filter((c) => inStart(state, c))
    .filter((c) => checkApplies(state, c.id, now))
    .map((c) => ({ is: "check", check: c.id }));
}

function ofStage(state: SessionState, now: number): Requirement[] {
  switch (state.stage) {
    case "brief":
      return neededPosts(state).flatMap((post): Requirement[] => {
        const holder = state.posts[post];
        if (!holder) return [{ is: "post", post }];
        return holder.briefed ? [] : [{ is: "briefed", post }];
      });
    case "secure":
      return [
        ...[chocksIn, brakesSet]
          .filter((c) => state.type.conditions.includes(c.id) && c.find(state, 0, now).is !== "yes")
          .map((c): Requirement => ({ is: "condition", condition: c.id })),
        ...uncounted(state, now),
      ];
    case "groundPower":
      return groundPowerKnown.find(state, 0, now).is === "yes"
        ? []
        : [{ is: "condition", condition: "groundPowerKnown" }];
    case "starting":
      return state.order
        .filter((n) => engineOf(state, n)?.life.is !== "stable")
        .map((engine) => ({ is: "engine", engine }));
    case "warmUp":
      return [
        ...gatesShort(state).map((g): Requirement => ({ is: "gate", engine: g.n, gauge: g.gauge })),
        ...(releaseVerdict(state)?.faults ?? []).map(
          (f): Requirement => ({ is: "runUp", fault: runUpFault(f) }),
        ),
        ...placesAt(state.type, "beforeRelease", null)
          .filter((p) => p.item.clearance && !isGood(state, p))
          .map((p): Requirement => ({ is: "card", item: p.item.id })),
        ...(state.groundPower.is === "on" ? [{ is: "powerOff" } as const] : []),
      ];
    case "release":
      return [
        ...(state.chocks?.in === false ? [] : [{ is: "chocksOut" } as const]),
        ...(state.allClearAt === null ? [{ is: "allClear" } as const] : []),
      ];
    case "arrival":
    case "stopping":
    case "stowing":
      return toStop(state, state.stage, now);
    case "plan":
    case "powerUp":
    case "closed":
    case "abandoned":
      return [];
  }
}

/**
 * Returns the engines whose blades are not counted. They must be counted before power is on, and hands must be off
 * again.
 */
function uncounted(state: SessionState, now: number): Requirement[] {
  const hands = state.handling ?? state.standing?.hands[0];
  if (hands) return [{ is: "handling", engine: hands.engine }];
  if (!state.type.conditions.includes("bladesCounted")) return [];
  return state.engines
    .filter((e) => state.order.includes(e.n) && !isTurning(e.life))
    .filter((e) => bladesCounted.find(state, e.n, now).is !== "yes")
    .map((e) => ({ is: "blades", engine: e.n }));
}
