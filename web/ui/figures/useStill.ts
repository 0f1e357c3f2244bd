import { useSyncExternalStore } from "react";

const QUERY = "(prefers-reduced-motion: reduce)";

function subscribe(listener: () => void): () => void {
  const query = matchMedia(QUERY);
  query.addEventListener("change", listener);
  return () => query.removeEventListener("change", listener);
}

/** The person wants nothing to move. */
export function useStill(): boolean {
  return useSyncExternalStore(subscribe, () => matchMedia(QUERY).matches);
}
