import { useState } from "react";
import { chosenUnit } from "../../shared/models/unitChoice.ts";
import { written } from "../../shared/words/quantity.ts";
import { unitWord } from "../../shared/words/units.ts";
import { useWords } from "../words/words.ts";
import { type FigureSpec, isGood, onScale } from "./figureSpec.ts";
import { figure } from "./numbers.ts";
import { StepKeys } from "./StepKeys.tsx";
import { useUnits } from "./units.ts";

interface Props {
  spec: FigureSpec;
  /** Word on the key that records the figure, e.g. "Record". */
  word: string;
  disabled: boolean;
  onEnter(value: number): void;
  onBack(): void;
}

const COARSE = 10;

/** Entry of a figure in steps or by touching the instrument's scale, without a keyboard and with gloves on. */
export function FigureEntry({ spec, word, disabled, onEnter, onBack }: Props) {
  const { entry } = useWords().text;
  const [value, setValue] = useState(() => onScale(spec, spec.start));
  // Without an earlier reading the start value is only typical, so one touch must not record it.
  const [touched, setTouched] = useState(spec.read);
  const unit = unitWord(spec.unit);
  const units = useUnits();
  const set = (change: (v: number) => number) => {
    setTouched(true);
    setValue((v) => onScale(spec, change(v)));
  };
  const good = isGood(spec, value);
  return (
    <section className="entry" aria-label={spec.label}>
      <div className="entry-head">
        <h3>{spec.label}</h3>
        <p>{spec.startWords}</p>
      </div>
      <output className="entry-value" data-good={good} data-untouched={!touched || undefined}>
        <button type="button" className="entry-number" onClick={() => setTouched(true)}>
          {figure(value, spec.step)}
        </button>
        <span className="entry-unit">{unit}</span>
        {chosenUnit(spec.unit, units) !== spec.unit && (
          <span className="entry-also">
            {written({ value, unit: spec.unit }, units, { step: spec.step })}
          </span>
        )}
        {touched && (spec.low !== null || spec.high !== null) && (
          <span className="entry-band">
            {good ? entry.inRange : value < (spec.low ?? value) ? entry.low : entry.high}
          </span>
        )}
      </output>
      {spec.result && <p className="entry-result">{spec.result(value)}</p>}
      <Scale spec={spec} value={value} onTouch={(v) => set(() => v)} />
      <StepKeys
        step={spec.step}
        coarse={COARSE}
        unit={unit}
        onStep={(steps) => set((v) => v + steps * spec.step)}
      />
      <div className="answers">
        <button
          type="button"
          className="answer"
          data-tone="yes"
          disabled={disabled || !touched}
          onClick={() => onEnter(value)}
        >
          {touched ? `${word} ${figure(value, spec.step)} ${unit}` : entry.set}
        </button>
        <button type="button" className="answer" data-tone="plain" onClick={onBack}>
          {entry.back}
        </button>
      </div>
    </section>
  );
}

/** The instrument's whole scale as a ruled line, with the good band in a heavier line. */
function Scale({ spec, value, onTouch }: { spec: FigureSpec; value: number; onTouch(v: number): void }) {
  const words = useWords().text.entry;
  const x = (v: number) => 20 + ((v - spec.from) / (spec.to - spec.from)) * 960;
  const marks = Array.from({ length: 11 }, (_, i) => spec.from + ((spec.to - spec.from) * i) / 10);
  const low = spec.low ?? spec.from;
  const high = spec.high ?? spec.to;
  const banded = spec.low !== null || spec.high !== null;
  return (
    <svg
      viewBox="0 0 1000 96"
      className="scale"
      role="img"
      aria-label={words.scale(spec.from, spec.to)}
      onPointerDown={(event) => {
        const at = event.currentTarget.getBoundingClientRect();
        const across = ((event.clientX - at.left) / at.width) * 1000;
        onTouch(spec.from + ((across - 20) / 960) * (spec.to - spec.from));
      }}
    >
      <title>{words.range(spec.from, spec.to)}</title>
      <line x1={20} y1={52} x2={980} y2={52} className="scale-line" />
      {banded && (
        <line
          x1={x(Math.max(low, spec.from))}
          y1={52}
          x2={x(Math.min(high, spec.to))}
          y2={52}
          className="scale-band"
        />
      )}
      {marks.map((m, i) => (
        <g key={m}>
          <line x1={x(m)} y1={52} x2={x(m)} y2={i % 5 === 0 ? 70 : 62} className="scale-line" />
          {i % 5 === 0 && (
            <text
              x={x(m)}
              y={94}
              textAnchor={i === 0 ? "start" : i === 10 ? "end" : "middle"}
              className="scale-text"
            >
              {Number(m.toFixed(2))}
            </text>
          )}
        </g>
      ))}
      <path d={`M${x(value)} 46l-15 -34h30z`} className="scale-pointer" />
    </svg>
  );
}
