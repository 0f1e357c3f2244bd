import { inStart } from "../checks/inStart.ts";
import { checkApplies } from "../checks/preheat.ts";
import { bladesCounted } from "../conditions/bladesCounted.ts";
import { brakesSet } from "../conditions/brakesSet.ts";
import { chocksIn } from "../conditions/chocksIn.ts";
import { groundPowerKnown } from "../conditions/groundPowerKnown.ts";
import { isTurning } from "../engine/life.ts";
import { neededPosts } from "../posts/needed.ts";
import { gatesShort } from "../runUp/gates.ts";
import { faultCode, releaseVerdict } from "../runUp/verdict.ts";
import { engineOf, type SessionState } from "../session/state.ts";

/**
 * What must still be met before the session may leave the stage it is in, as codes: `post:cockpit`,
 * `briefed:fireGuard`, `check:battery1`, `condition:chocksIn`, `blades:2`, `handling:2`, `engine:3`, `gate:3:oilTemp`,
 * `runUp:3:magneto:uneven`, `powerOff`, `chocksOut`,
 * `allClear`. Empty when the stage may be left.
 */
export function missingFor(state: SessionState, now: number): string[] {
  return [...ofStage(state, now), ...ofChecks(state, now)];
}

function ofChecks(state: SessionState, now: number): string[] {
  return state.type.checks
    .filter((c) => c.stage === state.stage && state.checks[c.id]?.good !== true)
    .filter((c) => inStart(state, c))
    .filter((c) => checkApplies(state, c.id, now))
    .map((c) => `check:${c.id}`);
}

function ofStage(state: SessionState, now: number): string[] {
  switch (state.stage) {
    case "brief":
      return neededPosts(state).flatMap((post) => {
        const holder = state.posts[post];
        if (!holder) return [`post:${post}`];
        return holder.briefed ? [] : [`briefed:${post}`];
      });
    case "secure":
      return [chocksIn, brakesSet]
        .filter((c) => state.type.conditions.includes(c.id) && c.find(state, 0, now).is !== "yes")
        .map((c) => `condition:${c.id}`)
        .concat(uncounted(state, now));
    case "groundPower":
      return groundPowerKnown.find(state, 0, now).is === "yes" ? [] : ["condition:groundPowerKnown"];
    case "starting":
      return state.order.filter((n) => engineOf(state, n)?.life.is !== "stable").map((n) => `engine:${n}`);
    case "warmUp":
      return [
        ...gatesShort(state).map((g) => `gate:${g.n}:${g.gauge}`),
        ...(releaseVerdict(state)?.faults ?? []).map(faultCode),
        ...(state.groundPower.is === "on" ? ["powerOff"] : []),
      ];
    case "release":
      return [
        ...(state.chocks?.in === false ? [] : ["chocksOut"]),
        ...(state.allClearAt === null ? ["allClear"] : []),
      ];
    default:
      return [];
  }
}

/** Blades are counted through while nothing is powered, and hands are off again. */
function uncounted(state: SessionState, now: number): string[] {
  if (state.handling) return [`handling:${state.handling.engine}`];
  if (!state.type.conditions.includes("bladesCounted")) return [];
  return state.engines
    .filter((e) => state.order.includes(e.n) && !isTurning(e.life))
    .filter((e) => bladesCounted.find(state, e.n, now).is !== "yes")
    .map((e) => `blades:${e.n}`);
}
