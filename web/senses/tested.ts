import { useSyncExternalStore } from "react";

/** The person's answer about the test signal on this device; `asked`: asked once, and not tested. */
export type Tested = "no" | "asked" | "reached" | "notReached";

const KEY = "chockside.testSignal";
const KEPT: readonly Tested[] = ["asked", "reached", "notReached"];
const listeners = new Set<() => void>();

export const keptTest = (): Tested => KEPT.find((t) => t === sessionStorage.getItem(KEY)) ?? "no";

export function keepTest(tested: Tested): void {
  sessionStorage.setItem(KEY, tested);
  for (const listener of listeners) listener();
}

function subscribe(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

export const useTested = (): Tested => useSyncExternalStore(subscribe, keptTest);
