import { useWords } from "../words/words.ts";

interface Props {
  /** Engine numbers in the order on screen. */
  numbers: readonly number[];
  prompt: string;
  disabled: boolean;
  /** A wider answer, e.g. all engines. It comes first and is filled, because it is the safe one in doubt. */
  all?: { word: string; onPress(): void } | undefined;
  onPick(n: number): void;
  onBack(): void;
}

/** Entry of an engine's number by hand. No number is marked or filled in beforehand. */
export function EngineKeys({ numbers, prompt, disabled, all, onPick, onBack }: Props) {
  const { entry } = useWords().text;
  return (
    <section className="entry" aria-label={prompt}>
      <div className="entry-head">
        <h3>{prompt}</h3>
      </div>
      {all && (
        <button type="button" className="answer" data-tone="danger" disabled={disabled} onClick={all.onPress}>
          {all.word}
        </button>
      )}
      <div className="number-keys">
        {numbers.map((n) => (
          <button
            key={n}
            type="button"
            className="number-key"
            disabled={disabled}
            onClick={() => onPick(n)}
            aria-label={entry.engineKey(n)}
          >
            {n}
          </button>
        ))}
      </div>
      <div className="answers">
        <button type="button" className="answer" data-tone="plain" onClick={onBack}>
          {entry.back}
        </button>
      </div>
    </section>
  );
}
