import { useEffect } from "react";

/** A message of the server may be lost; then a list of the house is this old at most. Milliseconds. */
const RENEW_MS = 10_000;

/**
 * Reads a list of the house at once, whenever the server says that something changed, and every 10 s.
 * @param changed counts the server's messages
 */
export function useRenewed(changed: number, renew: () => void): void {
  // biome-ignore lint/correctness/useExhaustiveDependencies: the caller's function is new at every picture
  useEffect(() => {
    renew();
    const timer = setInterval(renew, RENEW_MS);
    return () => clearInterval(timer);
  }, [changed]);
}
