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
 * Entry for blades turned through by hand, with the other hand on the propeller: one touch for each blade on a large
 * key, or one touch at the end for all that the rule asks for.
 */
export function BladesEntry({ atLeast, disabled, onEnter, onBack }: Props) {
  const { entry } = useWords().text;
  const { blades: words } = useLaterWords();
  const [blades, setBlades] = useState(0);
  const few = blades > 0 && blades < atLeast;
  return (
    <section className="entry blades-entry" aria-label={words.title}>
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
          disabled={disabled || few}
          onClick={() => onEnter({ blades: blades || atLeast, resistance: false })}
        >
          {blades === 0 ? words.all(atLeast) : few ? words.more(atLeast - blades) : words.free}
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
