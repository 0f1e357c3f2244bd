import { plain, type StarterUse } from "../engine/life.ts";
import type { SessionState } from "../session/state.ts";

/**
 * Returns the state with volts that were read while an engine cranked: the one that cranks, or `of`, whose last attempt
 * they belong to. The lowest of the attempt is kept with its starter's engagement.
 */
export function lowestSeen(
  state: SessionState,
  seen: NonNullable<StarterUse["lowest"]>,
  of?: number,
): SessionState {
  const engines = state.engines.map((e) => {
    const use = e.starter.at(-1);
    const meant = of === undefined ? plain(e.life).is === "cranking" : e.n === of;
    if (!meant || !use || (use.lowest && use.lowest.value <= seen.value)) return e;
    return { ...e, starter: [...e.starter.slice(0, -1), { ...use, lowest: seen }] };
  });
  return { ...state, engines };
}
