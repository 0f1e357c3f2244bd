import { useState } from "react";
import { useWords } from "../words/words.ts";

interface Props {
  prompt: string;
  /** Usual reasons, one touch each. */
  usual: readonly string[];
  word: string;
  disabled: boolean;
  onEnter(reason: string): void;
  onBack(): void;
}

/** Entry of a reason for the record: one of the usual ones, or free text. */
export function ReasonEntry({ prompt, usual, word, disabled, onEnter, onBack }: Props) {
  const { entry } = useWords().text;
  const [text, setText] = useState("");
  const given = text.trim();
  return (
    <section className="entry" aria-label={prompt}>
      <div className="entry-head">
        <h3>{prompt}</h3>
      </div>
      <div className="reason-keys">
        {usual.map((u) => (
          <button key={u} type="button" className="reason-key" disabled={disabled} onClick={() => onEnter(u)}>
            {u}
          </button>
        ))}
      </div>
      <label className="field">
        <span>{entry.ownWords}</span>
        <input name="reason" value={text} maxLength={280} onChange={(e) => setText(e.target.value)} />
      </label>
      <div className="answers">
        <button
          type="button"
          className="answer"
          data-tone="yes"
          disabled={disabled || given === ""}
          onClick={() => onEnter(given)}
        >
          {word}
        </button>
        <button type="button" className="answer" data-tone="plain" onClick={onBack}>
          {entry.back}
        </button>
      </div>
    </section>
  );
}
