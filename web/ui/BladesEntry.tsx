import { useState } from "react";
import { StepKeys } from "./StepKeys.tsx";

interface Props {
  atLeast: number;
  disabled: boolean;
  onEnter(count: { blades: number; resistance: boolean }): void;
  onBack(): void;
}

/** Blades turned through by hand. The count begins at none: it is counted, not confirmed. */
export function BladesEntry({ atLeast, disabled, onEnter, onBack }: Props) {
  const [blades, setBlades] = useState(0);
  return (
    <section className="entry" aria-label="Blades counted">
      <div className="entry-head">
        <h3>Blades turned through</h3>
        <p>At least {atLeast}. Any resistance: stop and say so.</p>
      </div>
      <output className="entry-value" data-good={blades >= atLeast}>
        <span className="entry-number">{blades}</span>
        <span className="entry-unit">blades</span>
        <span className="entry-band">{blades >= atLeast ? "enough" : `${atLeast - blades} more`}</span>
      </output>
      <StepKeys step={1} coarse={5} unit="blades" onStep={(n) => setBlades((b) => Math.max(0, b + n))} />
      <div className="answers">
        <button
          type="button"
          className="answer"
          data-tone="yes"
          disabled={disabled || blades === 0}
          onClick={() => onEnter({ blades, resistance: false })}
        >
          No resistance
        </button>
        <button
          type="button"
          className="answer"
          data-tone="no"
          disabled={disabled}
          onClick={() => onEnter({ blades, resistance: true })}
        >
          Resistance
        </button>
        <button type="button" className="answer" data-tone="plain" onClick={onBack}>
          Back
        </button>
      </div>
    </section>
  );
}
