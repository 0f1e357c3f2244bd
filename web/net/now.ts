import { useEffect, useMemo, useState } from "react";
import { interruptible } from "../ui/interruptible.ts";
import type { Connection } from "./connection.ts";
import type { ConnectionView } from "./connectionView.ts";

/** A clock tick that runs while a component reads it. */
function every(ms: number) {
  let ticker: ReturnType<typeof setInterval> | null = null;
  const listeners = new Set<() => void>();
  return (listener: () => void): (() => void) => {
    listeners.add(listener);
    ticker ??= setInterval(() => {
      for (const each of listeners) each();
    }, ms);
    return () => {
      listeners.delete(listener);
      if (listeners.size > 0 || ticker === null) return;
      clearInterval(ticker);
      ticker = null;
    };
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
  const [tick, setTick] = useState(0);
  useEffect(() => {
    // A touch interrupts the drawing of a tick, which takes a slow tablet a tenth of a second.
    return (quick ? QUARTERS : SECONDS)(() => interruptible(() => setTick((t) => t + 1)));
  }, [quick]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the clock is read again with each tick and each view
  const panel = useMemo(() => Date.now(), [tick, view]);
  return { panel, server: Math.round(connection.clock.now() ?? panel) };
}
