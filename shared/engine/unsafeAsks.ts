import { type Ask, ask, type Choice, choice } from "../asks/ask.ts";
import { send } from "../asks/send.ts";
import { reading } from "../readings/ask.ts";
import type { SessionState } from "../session/state.ts";
import { plain } from "./life.ts";
import { oilLost } from "./oilLost.ts";
import { isArcUnsafe, isRevoked } from "./unsafe.ts";

/** Engines the cockpit is asked to stop for as long as they turn so: an acknowledged alert asks for nothing any more. */
export function stopUnsafe(state: SessionState): Ask[] {
  return state.engines.flatMap((engine): Ask[] => {
    const n = engine.n;
    const shutDown = choice("shutDown", "yes", send("shutDown", n));
    const abandon = choice("startAbandoned", "yes", send("startAbandoned", n));
    const stop: Choice[] = plain(engine.life).is === "cranking" ? [abandon, shutDown] : [shutDown];
    const base = { weight: 0, engine: n } as const;
    if (isArcUnsafe(state, engine)) {
      const since = state.arcs[n]?.at ?? null;
      return [ask({ ...base, key: `arcUnsafe:${n}`, say: "alert.arcUnsafe", since, choices: stop })];
    }
    if (isRevoked(engine)) {
      return [ask({ ...base, key: `revoked:${n}`, say: "alert.revokedTurning", choices: stop })];
    }
    const gone = oilLost(state, engine);
    if (!gone) return [];
    const choices = [shutDown, reading(state, "oilPressure", n)];
    return [ask({ ...base, key: `oilLost:${n}`, say: "alert.oilLost", since: gone.at, choices })];
  });
}
