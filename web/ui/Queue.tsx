import { useWords } from "../words/words.ts";
import { AuthorsWords } from "./AuthorsWords.tsx";
import type { AskView } from "./askView.ts";

/** The other asks, in order. A touch brings one to the front. */
export function Queue({ asks, onPick }: { asks: readonly AskView[]; onPick(key: string): void }) {
  const { ask } = useWords().text;
  if (asks.length === 0) return null;
  return (
    <section className="queue" aria-label={ask.queue}>
      <h3>{ask.queue}</h3>
      <ol>
        {asks.map((a) => (
          <li key={a.key}>
            <button type="button" className="queue-row" data-weight={a.weight} onClick={() => onPick(a.key)}>
              <span className="queue-number">{a.engine ?? ""}</span>
              <span>
                <AuthorsWords text={a.sentence} />
              </span>
            </button>
          </li>
        ))}
      </ol>
    </section>
  );
}
