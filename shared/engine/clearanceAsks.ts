import { type Ask, ask, choice } from "../asks/ask.ts";
import { findUnmet } from "../conditions/all.ts";
import { renewals } from "../conditions/renewal.ts";
import type { SessionState } from "../session/state.ts";
import { plain } from "./life.ts";

/**
 * Returns the requests that wait for the supervisor. While a condition is not met, or its report would grow old within
 * the clearance's life, there is no choice to clear; the ask names what is missing.
 */
export function clearances(state: SessionState, now: number): Ask[] {
  return state.engines.flatMap((e) => {
    const life = plain(e.life);
    if (life.is !== "requested") return [];
    const unmet = findUnmet(state, e.n, now).map((u) => u.id);
    const missing = [...unmet, ...renewals(state, e.n, now)];
    const waits = unmet.length > 0 ? "clearWaits" : "clearRenews";
    const request = state.signals.find((s) => s.id === life.signal);
    const unable = choice("unable", "no", {
      type: "answer",
      signal: life.signal,
      answer: "unable",
      channel: "panel",
    });
    const also = state.supervisesAlso;
    const clear = choice(
      "clearToStart",
      "yes",
      { type: "send", kind: "clearToStart", engine: e.n, channel: "panel" },
      also ? { is: "standsAt", among: [state.aircraft, ...also].sort() } : null,
    );
    return [
      ask({
        // A key of its own while it waits: a touch meant for "Clear" must not reach the key that took its place.
        key: missing.length === 0 ? `clear:${e.n}` : `waits:${e.n}`,
        say: missing.length === 0 ? "clearToStart" : waits,
        weight: 2,
        engine: e.n,
        signal: life.signal,
        from: "cockpit",
        since: life.since,
        dueAt: request?.dueAt ?? null,
        detail: missing.length === 0 ? null : { is: "unmet", conditions: missing },
        choices: missing.length === 0 ? [clear, unable] : [unable],
      }),
    ];
  });
}
