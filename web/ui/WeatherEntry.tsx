import { useState } from "react";
import { useWords } from "../words/words.ts";
import { ReportEntry } from "./ReportEntry.tsx";
import { StepKeys } from "./StepKeys.tsx";

type Weather = { metar: string } | { windKt: number; gustKt?: number; temperatureC?: number };

interface Props {
  now: number;
  /** Age at which a report no longer describes the present, milliseconds; data of the type. */
  mostAge: number;
  /** The entry shown first; one touch changes to the other. */
  first: "hand" | "report";
  disabled: boolean;
  onEnter(weather: Weather): void;
  onBack(): void;
}

const MOST_KT = 150;
const COLDEST_C = -60;
const HOTTEST_C = 60;

/** Entry of weather, from a report or by hand. */
export function WeatherEntry({ now, mostAge, first, disabled, onEnter, onBack }: Props) {
  const [by, setBy] = useState(first);
  if (by === "hand")
    return <ByHand disabled={disabled} onEnter={onEnter} onReport={() => setBy("report")} onBack={onBack} />;
  return (
    <ReportEntry
      now={now}
      mostAge={mostAge}
      disabled={disabled}
      onEnter={(metar) => onEnter({ metar })}
      onByHand={() => setBy("hand")}
      onBack={onBack}
    />
  );
}

interface HandProps {
  disabled: boolean;
  onEnter(weather: Weather): void;
  onReport(): void;
  onBack(): void;
}

/**
 * Entry of wind, gusts and air temperature by hand. A gust not above the wind is not sent, nor is a figure nobody
 * read.
 */
function ByHand({ disabled, onEnter, onReport, onBack }: HandProps) {
  const { air, entry, weather: words } = useWords().text;
  const [windKt, setWind] = useState<number | null>(null);
  const [gustKt, setGust] = useState<number | null>(null);
  const [temperatureC, setTemperature] = useState<number | null>(null);
  const knots = (set: (change: (v: number | null) => number) => void) => (steps: number) =>
    set((v) => Math.min(MOST_KT, Math.max(0, (v ?? 0) + steps)));
  const degrees = (steps: number) =>
    setTemperature((v) => Math.min(HOTTEST_C, Math.max(COLDEST_C, (v ?? 0) + steps)));
  const gusty = windKt !== null && gustKt !== null && gustKt > windKt;
  return (
    <section className="entry" aria-label={words.title}>
      <Row label={words.wind} unit="kt" value={windKt} onStep={knots(setWind)} onCalm={() => setWind(0)} />
      <Row label={words.gusts} unit="kt" value={gustKt} onStep={knots(setGust)} />
      <Row label={words.air} unit="°C" value={temperatureC} onStep={degrees} />
      <div className="answers">
        <button
          type="button"
          className="answer"
          data-tone="yes"
          disabled={disabled || windKt === null}
          onClick={() =>
            onEnter({
              windKt: windKt ?? 0,
              ...(gusty ? { gustKt } : {}),
              ...(temperatureC === null ? {} : { temperatureC }),
            })
          }
        >
          {windKt === null ? words.set : words.record(windKt, gusty ? gustKt : null, temperatureC)}
        </button>
        <button type="button" className="answer" data-tone="plain" onClick={onReport}>
          {air.fromReport}
        </button>
        <button type="button" className="answer" data-tone="plain" onClick={onBack}>
          {entry.back}
        </button>
      </div>
    </section>
  );
}

interface RowProps {
  label: string;
  unit: string;
  value: number | null;
  onStep(steps: number): void;
  /** Calm is a reading too; a touch on the figure enters it. */
  onCalm?: () => void;
}

function Row({ label, unit, value, onStep, onCalm }: RowProps) {
  const words = useWords().text.weather;
  return (
    <div className="weather-row">
      <output className="entry-value">
        <span className="weather-label">{label}</span>
        {value === null && onCalm ? (
          <button type="button" className="small-key" onClick={onCalm}>
            {words.calm}
          </button>
        ) : (
          <span className="weather-number">{value ?? "–"}</span>
        )}
        <span className="entry-unit">{unit}</span>
      </output>
      <StepKeys step={1} coarse={5} unit={`${unit} ${label.toLowerCase()}`} onStep={onStep} />
    </div>
  );
}
