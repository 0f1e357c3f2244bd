import { useState } from "react";
import { chosenUnit } from "../../shared/models/unitChoice.ts";
import { written } from "../../shared/words/quantity.ts";
import { unitWord } from "../../shared/words/units.ts";
import type { Words } from "../words/catalogue.ts";
import { useWords } from "../words/words.ts";
import { BeforeSending } from "./BeforeSending.tsx";
import { DigitKeys } from "./DigitKeys.tsx";
import { FigureWayKey } from "./FigureWayKey.tsx";
import { asksFirst, BLANK, entered, stepped, typed } from "./figureEntry.ts";
import { type FigureSpec, isGood } from "./figureSpec.ts";
import { useFiguring } from "./figuring.ts";
import { figure } from "./numbers.ts";
import { Scale } from "./Scale.tsx";
import { StepKeys } from "./StepKeys.tsx";
import { onTheScale } from "./typedFigure.ts";
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
  const { way, onWay } = useFiguring();
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
        <span className="entry-number">{now.typed ?? (value === null ? "–" : figure(value, spec.step))}</span>
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
          onChange={() => setNow({ ...now, asking: false })}
        />
      ) : (
        <>
          <Scale spec={spec} value={value} onTouch={(v) => setNow(entered(spec, v))} />
          {way === "digits" ? (
            <DigitKeys scale={spec} onKey={(key) => setNow((e) => typed(spec, e, key))} onNext={null} />
          ) : (
            <StepKeys
              step={spec.step}
              coarse={COARSE}
              unit={unit}
              onStep={(steps) => setNow((e) => stepped(spec, e, steps))}
            />
          )}
          <div className="answers">
            <button
              type="button"
              className="answer"
              data-tone="yes"
              disabled={disabled || value === null || !onTheScale(spec, value)}
              onClick={() => {
                if (value === null) return;
                if (asksFirst(spec, now, follows(value))) setNow({ ...now, asking: true });
                else onEnter(value);
              }}
            >
              {value === null ? entry.set : `${word} ${shown(value)}`}
            </button>
            <button type="button" className="answer" data-tone="plain" onClick={onBack}>
              {entry.back}
            </button>
            <FigureWayKey way={way} onWay={onWay} />
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
