import { crank } from "../engine/evolve.ts";
import { isTurning } from "../engine/life.ts";
import { accept } from "../session/verdict.ts";
import { closeKinds } from "../signals/close.ts";
import { held } from "./hold.ts";
import { knowsEngine, latched, stop, withoutEngine } from "./latch.ts";

/** An engine was seen turning without a clearance: everything is held. Without an engine that exists, it is a hold. */
export const turning = stop({
  engine: "required",
  tone: "hold",
  incident: true,
  decide: (state, send) =>
    accept(
      knowsEngine(state, send)
        ? { ...send, type: "sent" }
        : { ...withoutEngine(send), kind: "hold", type: "sent" },
    ),
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
