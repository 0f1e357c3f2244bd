import { crank } from "../engine/evolve.ts";
import { isTurning } from "../engine/life.ts";
import { closeKinds } from "../signals/close.ts";
import { held } from "./held.ts";
import { latched, stop } from "./latch.ts";
import { turningSeen } from "./turningSeen.ts";

/** An engine was seen turning without a clearance: everything is held. Without an engine that exists, it is a hold. */
export const turning = stop({
  engine: "required",
  tone: "hold",
  incident: true,
  decide: turningSeen,
  evolve(before, event, fact) {
    const state = latched(before);
    const n = fact.engine ?? 0;
    const already = state.engines.some((e) => e.n === n && isTurning(e.life));
    const asked = closeKinds(state, ["readyToStart", "clearToStart"], "superseded", n);
    const turned = already ? asked : crank(asked, n, event.at, { cleared: false, expected: undefined });
    return held(turned, event, fact, `turning ${n}`);
  },
  menu: null,
});
