import { useState } from "react";
import { StepKeys } from "./StepKeys.tsx";

interface Props {
  disabled: boolean;
  onEnter(weather: { windKt: number; gustKt?: number }): void;
  onBack(): void;
}

const MOST_KT = 150;

/** Wind and gusts as read. A gust below the wind is no gust. */
export function WeatherEntry({ disabled, onEnter, onBack }: Props) {
  const [windKt, setWind] = useState(0);
  const [gustKt, setGust] = useState(0);
  const add = (steps: number) => (v: number) => Math.min(MOST_KT, Math.max(0, v + steps));
  const row = (label: string, value: number, set: (change: (v: number) => number) => void) => (
    <div className="weather-row">
      <output className="entry-value">
        <span className="weather-label">{label}</span>
        <span className="entry-number">{value}</span>
        <span className="entry-unit">kt</span>
      </output>
      <StepKeys step={1} coarse={5} unit={`kt ${label.toLowerCase()}`} onStep={(n) => set(add(n))} />
    </div>
  );
  return (
    <section className="entry" aria-label="Wind">
      {row("Wind", windKt, setWind)}
      {row("Gusts", gustKt, setGust)}
      <div className="answers">
        <button
          type="button"
          className="answer"
          data-tone="yes"
          disabled={disabled}
          onClick={() => onEnter(gustKt > windKt ? { windKt, gustKt } : { windKt })}
        >
          Record wind {windKt} kt{gustKt > windKt ? `, gusts ${gustKt}` : ", no gusts"}
        </button>
        <button type="button" className="answer" data-tone="plain" onClick={onBack}>
          Back
        </button>
      </div>
    </section>
  );
}
