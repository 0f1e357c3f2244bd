import { useEffect, useState } from "react";
import type { NoiseDay } from "./api.ts";
import { api } from "./app.ts";

/** A level of 110 dBA takes half a minute for the sixtieth part of a dose. */
const EVERY_MS = 30_000;

/**
 * The noise doses this person may see in a session, asked for again as they grow and when what `stands` changes: who is
 * at which post, what turns. The last ones where nothing answers.
 */
export function useNoise(session: string, stands: string): NoiseDay | null {
  const [day, setDay] = useState<NoiseDay | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: `stands` asks again
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
