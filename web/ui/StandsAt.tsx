import { useWords } from "../words/words.ts";

interface Props {
  /** The aircraft, in an order that does not depend on which one is shown. */
  among: readonly string[];
  disabled: boolean;
  onPick(aircraft: string): void;
  onBack(): void;
}

/** Entry of the aircraft at which a supervisor of several stands. None is marked beforehand. */
export function StandsAt({ among, disabled, onPick, onBack }: Props) {
  const { entry } = useWords().text;
  return (
    <section className="entry" aria-label={entry.standsAt}>
      <div className="entry-head">
        <h3>{entry.standsAt}</h3>
      </div>
      <div className="reason-keys">
        {among.map((aircraft) => (
          <button
            key={aircraft}
            type="button"
            className="reason-key"
            disabled={disabled}
            onClick={() => onPick(aircraft)}
          >
            {aircraft}
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
