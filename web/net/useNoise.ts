import { useEffect, useState } from "react";
import type { NoiseDay } from "./api.ts";
import { api } from "./app.ts";

/** At 110 dBA half a minute adds a sixtieth of a full dose. */
const EVERY_MS = 30_000;

/**
 * Returns the noise doses this person may see in a session. Fetches them again every half minute and when `stands`
 * changes, which encodes the people at the posts and the engines that turn. Keeps the last ones when a request fails.
 */
export function useNoise(session: string, stands: string): NoiseDay | null {
  const [day, setDay] = useState<NoiseDay | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a change of `stands` triggers a new request
  useEffect(() => {
    let gone = false;
    const ask = () =>
      api.noise(session).then(
        (got) => {
          if (!gone) setDay(got);
        },
        () => undefined,
      );
    void ask();
    const timer = setInterval(ask, EVERY_MS);
    return () => {
      gone = true;
      clearInterval(timer);
    };
  }, [session, stands]);
  return day;
}
