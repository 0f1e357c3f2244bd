import { useState } from "react";
import { useLaterWords } from "../words/later.ts";
import { useWords } from "../words/words.ts";
import { StepKeys } from "./StepKeys.tsx";

interface Props {
  atLeast: number;
  disabled: boolean;
  onEnter(count: { blades: number; resistance: boolean }): void;
  onBack(): void;
}

/**
 * Entry for blades turned through by hand. It starts at 0, so that the person counts instead of confirming a figure.
 */
export function BladesEntry({ atLeast, disabled, onEnter, onBack }: Props) {
  const { entry } = useWords().text;
  const { blades: words } = useLaterWords();
  const [blades, setBlades] = useState(0);
  return (
    <section className="entry" aria-label={words.title}>
      <div className="entry-head">
        <h3>{words.head}</h3>
        <p>{words.atLeast(atLeast)}</p>
      </div>
      <output className="entry-value" data-good={blades >= atLeast}>
        <span className="entry-number">{blades}</span>
        <span className="entry-unit">{words.unit}</span>
        <span className="entry-band">{blades >= atLeast ? words.enough : words.more(atLeast - blades)}</span>
      </output>
      <StepKeys step={1} coarse={5} unit={words.unit} onStep={(n) => setBlades((b) => Math.max(0, b + n))} />
      <div className="answers">
        <button
          type="button"
          className="answer"
          data-tone="yes"
          disabled={disabled || blades === 0}
          onClick={() => onEnter({ blades, resistance: false })}
        >
          {words.free}
        </button>
        <button
          type="button"
          className="answer"
          data-tone="no"
          disabled={disabled}
          onClick={() => onEnter({ blades, resistance: true })}
        >
          {words.resistance}
        </button>
        <button type="button" className="answer" data-tone="plain" onClick={onBack}>
          {entry.back}
        </button>
      </div>
    </section>
  );
}
