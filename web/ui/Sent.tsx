import { saidWords } from "../words/said.ts";
import { useWords } from "../words/words.ts";
import { AuthorsWords } from "./AuthorsWords.tsx";
import type { AnswerKey } from "./askView.ts";

export interface SentRow {
  id: string;
  /** The message in words. */
  words: string;
  /** `failed`: refused by its receiver, void, or not taken by the server. `over`: it no longer counts. */
  is: "sending" | "recorded" | "refused" | "lapsed" | "failed" | "over";
  /** The reason why a recorded message no longer counts; null while it does. */
  end: string | null;
  /** Its status in words. */
  status: string;
  /** One line for each post whose answer is due; `bad` for one that permits nothing. */
  answers: readonly { words: string; bad: boolean }[];
  /** True when it can be sent again unchanged. */
  mayGoAnew: boolean;
  /** The key that corrects its figure; null when there is nothing to correct. */
  correct: AnswerKey | null;
}

interface Props {
  rows: readonly SentRow[];
  onAnew(id: string): void;
  onDrop(id: string): void;
  onCorrect(key: AnswerKey): void;
  /** Sending again needs a fresh connection. */
  fresh: boolean;
}

/** Messages of this person and their status. A message counts as sent only once it is recorded. */
export function Sent({ rows, onAnew, onDrop, onCorrect, fresh }: Props) {
  const words = saidWords(useWords().say.language).sent;
  if (rows.length === 0) return null;
  return (
    <section className="sent" aria-label={words.region} aria-live="polite">
      <h3>{words.title}</h3>
      <ul>
        {rows.map((r) => (
          <li key={r.id} data-is={r.is}>
            <strong>
              <AuthorsWords text={r.words} />
            </strong>
            <span className="sent-status">{r.status}</span>
            {r.answers.map((a) => (
              <span key={a.words} className="sent-answer" data-bad={a.bad || undefined}>
                {a.words}
              </span>
            ))}
            {r.end && <strong className="sent-end">{r.end}</strong>}
            <CorrectKey of={r.correct} fresh={fresh} onCorrect={onCorrect} />
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

interface CorrectProps {
  of: AnswerKey | null;
  fresh: boolean;
  onCorrect(key: AnswerKey): void;
}

function CorrectKey({ of, fresh, onCorrect }: CorrectProps) {
  if (of === null) return null;
  return (
    <span className="sent-keys">
      <button type="button" className="small-key" disabled={!fresh} onClick={() => onCorrect(of)}>
        {of.word}
      </button>
    </span>
  );
}
