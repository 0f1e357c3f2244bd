import { type Ask, ask, choice } from "../asks/ask.ts";
import { findUnmet } from "../conditions/all.ts";
import type { SessionState } from "../session/state.ts";
import { plain } from "./life.ts";

/**
 * Returns the requests that wait for the supervisor. While a condition is not met there is no choice to clear; the ask
 * names what is missing.
 */
export function clearances(state: SessionState, now: number): Ask[] {
  return state.engines.flatMap((e) => {
    const life = plain(e.life);
    if (life.is !== "requested") return [];
    const unmet = findUnmet(state, e.n, now);
    const request = state.signals.find((s) => s.id === life.signal);
    const unable = choice("unable", "no", {
      type: "answer",
      signal: life.signal,
      answer: "unable",
      channel: "panel",
    });
    const clear = choice("clearToStart", "yes", {
      type: "send",
      kind: "clearToStart",
      engine: e.n,
      channel: "panel",
    });
    return [
      ask({
        key: `clear:${e.n}`,
        say: unmet.length === 0 ? "clearToStart" : "clearWaits",
        weight: 2,
        engine: e.n,
        signal: life.signal,
        from: "cockpit",
        since: life.since,
        dueAt: request?.dueAt ?? null,
        detail: unmet.length === 0 ? null : { is: "unmet", conditions: unmet.map((u) => u.id) },
        choices: unmet.length === 0 ? [clear, unable] : [unable],
      }),
    ];
  });
}
