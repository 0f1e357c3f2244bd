import { useSyncExternalStore } from "react";
import type { Connection } from "./connection.ts";

const STEP_MS = 250;
let panelNow = Date.now();
let ticker: ReturnType<typeof setInterval> | null = null;
const listeners = new Set<() => void>();

function subscribe(listener: () => void): () => void {
  listeners.add(listener);
  ticker ??= setInterval(() => {
    panelNow = Date.now();
    for (const each of listeners) each();
  }, STEP_MS);
  return () => {
    listeners.delete(listener);
    if (listeners.size > 0 || ticker === null) return;
    clearInterval(ticker);
    ticker = null;
  };
}

/** Returns the current time, updated four times a second: the panel's clock, and the estimated server time. */
export function useMoment(connection: Connection): { panel: number; server: number } {
  const panel = useSyncExternalStore(subscribe, () => panelNow);
  return { panel, server: Math.round(connection.clock.now() ?? panel) };
}
