import "../../styles/devices.css";
import "../../styles/history.css";
import { useCallback, useEffect, useState } from "react";
import { histories } from "../../net/history.ts";
import { useHistoryWords } from "../../words/history.ts";
import { go } from "../route.ts";

/** Interval between looks at how far it is. Milliseconds. */
const LOOK_MS = 1_500;

/** In the demo: a key that has an invented year made, and says that it is invented. */
export function InventedYear({ onMade, onTrouble }: { onMade?: () => void; onTrouble(error: Error): void }) {
  const words = useHistoryWords();
  const [made, setMade] = useState<readonly string[] | null>(null);
  const [progress, setProgress] = useState<{ made: number; of: number } | null>(null);
  const look = useCallback(
    () =>
      void histories.year().then(
        (year) => {
          setProgress(year);
          if (!year.done) return;
          setMade(year.aircraft);
          onMade?.();
        },
        (error: Error) => {
          setProgress(null);
          onTrouble(error);
        },
      ),
    [onMade, onTrouble],
  );
  useEffect(() => {
    if (progress === null || made !== null) return;
    const timer = setTimeout(look, LOOK_MS);
    return () => clearTimeout(timer);
  }, [progress, made, look]);
  return (
    <section className="own history-year" aria-label={words.year}>
      <h2>{words.year}</h2>
      <p>{words.yearIs}</p>
      {made === null ? (
        <button
          type="button"
          className="answer"
          data-tone="plain"
          disabled={progress !== null}
          onClick={look}
        >
          {progress === null ? words.yearMake : words.yearMaking(progress.made, progress.of)}
        </button>
      ) : (
        <nav className="head-keys" aria-label={words.year}>
          {made.map((id) => (
            <button
              key={id}
              type="button"
              className="answer"
              data-tone="plain"
              onClick={() => go(`/aircraft/${encodeURIComponent(id)}/history`)}
            >
              {words.aircraftTitle(id)}
            </button>
          ))}
        </nav>
      )}
    </section>
  );
}
