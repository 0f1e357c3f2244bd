import { useState } from "react";
import { histories } from "../../net/history.ts";
import { useHistoryWords } from "../../words/history.ts";
import { go } from "../route.ts";

/** In the demo: a key that has an invented year made, and says that it is invented. */
export function InventedYear({ onMade, onTrouble }: { onMade(): void; onTrouble(error: Error): void }) {
  const words = useHistoryWords();
  const [made, setMade] = useState<readonly string[] | null>(null);
  const [busy, setBusy] = useState(false);
  const make = () => {
    setBusy(true);
    histories
      .makeYear()
      .then(({ aircraft }) => {
        setMade(aircraft);
        onMade();
      }, onTrouble)
      .finally(() => setBusy(false));
  };
  return (
    <section className="own history-year" aria-label={words.year}>
      <h2>{words.year}</h2>
      <p>{words.yearIs}</p>
      {made === null ? (
        <button type="button" className="answer" data-tone="plain" disabled={busy} onClick={make}>
          {busy ? words.yearMaking : words.yearMake}
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
