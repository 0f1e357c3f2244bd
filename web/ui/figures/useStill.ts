import { useSyncExternalStore } from "react";

const QUERY = "(prefers-reduced-motion: reduce)";

function subscribe(listener: () => void): () => void {
  const query = matchMedia(QUERY);
  query.addEventListener("change", listener);
  return () => query.removeEventListener("change", listener);
}

/** True when the person prefers reduced motion. */
export function useStill(): boolean {
  return useSyncExternalStore(subscribe, () => matchMedia(QUERY).matches);
}
