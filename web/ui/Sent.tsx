import { useWords } from "../words/words.ts";

export interface SentRow {
  id: string;
  /** What was said, in words. */
  words: string;
  is: "sending" | "recorded" | "refused" | "lapsed" | "failed";
  /** What became of it, in words. */
  fate: string;
  /** Who has answered and who has not. */
  answers: readonly string[];
  /** Whether it can be sent anew as it is. */
  mayGoAnew: boolean;
}

interface Props {
  rows: readonly SentRow[];
  onAnew(id: string): void;
  onDrop(id: string): void;
  /** Sending anew is possible only over a live link. */
  fresh: boolean;
}

/** What this person sent and what became of it. Nothing counts as said before it is recorded. */
export function Sent({ rows, onAnew, onDrop, fresh }: Props) {
  const words = useWords().text.sent;
  if (rows.length === 0) return null;
  return (
    <section className="sent" aria-label={words.region} aria-live="polite">
      <h3>{words.title}</h3>
      <ul>
        {rows.map((r) => (
          <li key={r.id} data-is={r.is}>
            <strong>{r.words}</strong>
            <span className="sent-fate">{r.fate}</span>
            {r.answers.map((a) => (
              <span key={a} className="sent-answer">
                {a}
              </span>
            ))}
            {r.is === "lapsed" && (
              <span className="sent-keys">
                {r.mayGoAnew && (
                  <button type="button" className="small-key" disabled={!fresh} onClick={() => onAnew(r.id)}>
                    {words.anew}
                  </button>
                )}
                <button type="button" className="small-key" onClick={() => onDrop(r.id)}>
                  {words.drop}
                </button>
              </span>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}
