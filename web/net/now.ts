import { useMemo, useSyncExternalStore } from "react";
import type { Connection } from "./connection.ts";
import type { ConnectionView } from "./connectionView.ts";

/** A count of ticks that runs while a component reads it. */
function every(ms: number) {
  let ticks = 0;
  let ticker: ReturnType<typeof setInterval> | null = null;
  const listeners = new Set<() => void>();
  return {
    read: () => ticks,
    subscribe(listener: () => void): () => void {
      listeners.add(listener);
      ticker ??= setInterval(() => {
        ticks += 1;
        for (const each of listeners) each();
      }, ms);
      return () => {
        listeners.delete(listener);
        if (listeners.size > 0 || ticker === null) return;
        clearInterval(ticker);
        ticker = null;
      };
    },
  };
}

// A redraw of a whole panel costs a tablet milliseconds and battery, so it is not done more often than a figure changes.
const SECONDS = every(1_000);
const QUARTERS = every(250);

/**
 * Returns the current time: the panel's clock, and the estimated server time. They are updated with the view, and every
 * second; four times a second when `quick`, because a starter's limit is a matter of seconds.
 */
export function useMoment(
  connection: Connection,
  view: ConnectionView,
  quick = false,
): { panel: number; server: number } {
  const ticker = quick ? QUARTERS : SECONDS;
  const tick = useSyncExternalStore(ticker.subscribe, ticker.read);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the clock is read again with each tick and each view
  const panel = useMemo(() => Date.now(), [tick, view]);
  return { panel, server: Math.round(connection.clock.now() ?? panel) };
}
