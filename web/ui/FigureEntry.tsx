import { useState } from "react";
import { chosenUnit } from "../../shared/models/unitChoice.ts";
import { written } from "../../shared/words/quantity.ts";
import { unitWord } from "../../shared/words/units.ts";
import type { Words } from "../words/catalogue.ts";
import { useWords } from "../words/words.ts";
import { asksFirst, BLANK, entered, stepped } from "./figureEntry.ts";
import { type FigureSpec, isGood } from "./figureSpec.ts";
import { figure } from "./numbers.ts";
import { StepKeys } from "./StepKeys.tsx";
import { useUnits } from "./units.ts";

interface Props {
  spec: FigureSpec;
  /** Word on the key that records the figure, e.g. "Record". */
  word: string;
  disabled: boolean;
  /** Returns what a figure would set off, one sentence each; null while that is not known. */
  follows(value: number): readonly string[] | null;
  onEnter(value: number): void;
  onBack(): void;
}

const COARSE = 10;

/**
 * Entry of a figure in steps or by touching the instrument's scale, without a keyboard and with gloves on. It starts
 * blank, and asks once more before it sends a figure that would set something off.
 */
export function FigureEntry({ spec, word, disabled, follows, onEnter, onBack }: Props) {
  const { entry } = useWords().text;
  const [now, setNow] = useState(BLANK);
  const unit = unitWord(spec.unit);
  const units = useUnits();
  const { value } = now;
  const good = value === null || isGood(spec, value);
  const shown = (v: number) => `${figure(v, spec.step)} ${unit}`.trim();
  const { before } = spec;
  return (
    <section className="entry" aria-label={spec.label}>
      <div className="entry-head">
        <h3>{spec.label}</h3>
        <p>{spec.startWords}</p>
      </div>
      <output className="entry-value" data-good={good}>
        <span className="entry-number">{value === null ? "–" : figure(value, spec.step)}</span>
        <span className="entry-unit">{unit}</span>
        {value !== null && chosenUnit(spec.unit, units) !== spec.unit && (
          <span className="entry-also">
            {written({ value, unit: spec.unit }, units, { step: spec.step })}
          </span>
        )}
        {value !== null && (spec.low !== null || spec.high !== null) && (
          <span className="entry-band">
            {good ? entry.inRange : value < (spec.low ?? value) ? entry.low : entry.high}
          </span>
        )}
        {value === null && before !== null && (
          <button
            type="button"
            className="small-key entry-before"
            onClick={() => setNow(entered(spec, before))}
          >
            {entry.still(shown(before))}
          </button>
        )}
      </output>
      {value !== null && spec.result && <p className="entry-result">{spec.result(value)}</p>}
      {now.asking && value !== null ? (
        <BeforeSending
          outside={good ? null : entry.outside(shown(value), bandWords(spec, shown, entry))}
          follows={follows(value) ?? []}
          send={entry.send(shown(value))}
          disabled={disabled}
          onSend={() => onEnter(value)}
          onChange={() => setNow({ value, asking: false })}
        />
      ) : (
        <>
          <Scale spec={spec} value={value} onTouch={(v) => setNow(entered(spec, v))} />
          <StepKeys
            step={spec.step}
            coarse={COARSE}
            unit={unit}
            onStep={(steps) => setNow((e) => stepped(spec, e, steps))}
          />
          <div className="answers">
            <button
              type="button"
              className="answer"
              data-tone="yes"
              disabled={disabled || value === null}
              onClick={() => {
                if (value === null) return;
                if (asksFirst(spec, now, follows(value))) setNow({ value, asking: true });
                else onEnter(value);
              }}
            >
              {value === null ? entry.set : `${word} ${shown(value)}`}
            </button>
            <button type="button" className="answer" data-tone="plain" onClick={onBack}>
              {entry.back}
            </button>
          </div>
        </>
      )}
    </section>
  );
}

function bandWords(spec: FigureSpec, shown: (v: number) => string, words: Words["text"]["entry"]): string {
  const { low, high } = spec;
  if (low !== null && high !== null) return words.between(figure(low, spec.step), shown(high));
  return low === null ? words.most(shown(high ?? spec.to)) : words.least(shown(low));
}

interface BeforeProps {
  /** The figure and its band; null for a figure inside it. */
  outside: string | null;
  follows: readonly string[];
  send: string;
  disabled: boolean;
  onSend(): void;
  onChange(): void;
}

/**
 * Asks whether a figure is to be sent that would set something off. The key that changes it stands where the key that
 * records was, so that a double touch sends nothing.
 */
function BeforeSending({ outside, follows, send, disabled, onSend, onChange }: BeforeProps) {
  const { entry } = useWords().text;
  return (
    <div className="entry-before-sending" role="alert">
      {outside && <h3>{outside}</h3>}
      {follows.length > 0 && (
        <>
          <p>{entry.ifSent}</p>
          <ul className="ask-lacking">
            {follows.map((f) => (
              <li key={f}>{f}</li>
            ))}
          </ul>
        </>
      )}
      <div className="answers">
        <button type="button" className="answer" data-tone="plain" onClick={onChange}>
          {entry.change}
        </button>
        <button type="button" className="answer" data-tone="no" disabled={disabled} onClick={onSend}>
          {send}
        </button>
      </div>
    </div>
  );
}

/** The instrument's whole scale as a ruled line, with the good band in a heavier line. */
function Scale({
  spec,
  value,
  onTouch,
}: {
  spec: FigureSpec;
  value: number | null;
  onTouch(v: number): void;
}) {
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
      {value !== null && <path d={`M${x(value)} 46l-15 -34h30z`} className="scale-pointer" />}
    </svg>
  );
}
