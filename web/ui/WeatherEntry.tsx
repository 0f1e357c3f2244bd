import { useState } from "react";
import { useLaterWords } from "../words/later.ts";
import { useWords } from "../words/words.ts";
import { ReportEntry } from "./ReportEntry.tsx";
import { StepKeys } from "./StepKeys.tsx";
import { airStepped, gustStepped, lacksReading, UNREAD, windStepped } from "./weatherByHand.ts";

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

/** Entry of wind, gusts and air temperature by hand. Nothing is recorded that nobody read. */
function ByHand({ disabled, onEnter, onReport, onBack }: HandProps) {
  const { entry } = useWords().text;
  const { airEntry: air, weather: words } = useLaterWords();
  const [read, setRead] = useState(UNREAD);
  const { windKt, gustKt, temperatureC } = read;
  const lacks = lacksReading(read);
  const gusts = typeof gustKt === "number" ? gustKt : null;
  return (
    <section className="entry" aria-label={words.title}>
      <Row
        label={words.wind}
        unit="kt"
        value={windKt}
        none={{ word: words.calm, onPress: () => setRead((r) => ({ ...r, windKt: 0 })) }}
        onStep={(steps) => setRead((r) => windStepped(r, steps))}
      />
      <Row
        label={words.gusts}
        unit="kt"
        value={gustKt === "none" ? words.none : gustKt}
        none={{ word: words.noGusts, onPress: () => setRead((r) => ({ ...r, gustKt: "none" })) }}
        onStep={(steps) => setRead((r) => gustStepped(r, steps))}
      />
      <Row
        label={words.air}
        unit="°C"
        value={temperatureC}
        none={null}
        onStep={(steps) => setRead((r) => airStepped(r, steps))}
      />
      <div className="answers">
        <button
          type="button"
          className="answer"
          data-tone="yes"
          disabled={disabled || lacks !== null}
          onClick={() =>
            windKt !== null &&
            onEnter({
              windKt,
              ...(gusts === null ? {} : { gustKt: gusts }),
              ...(temperatureC === null ? {} : { temperatureC }),
            })
          }
        >
          {lacks !== null ? words.lacks[lacks] : words.record(windKt ?? 0, gusts, temperatureC)}
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
  /** Null until it is read. */
  value: number | string | null;
  /** The key for a reading of nothing, such as calm; shown until something is read. */
  none: { word: string; onPress(): void } | null;
  onStep(steps: number): void;
}

function Row({ label, unit, value, none, onStep }: RowProps) {
  return (
    <div className="weather-row">
      <output className="entry-value">
        <span className="weather-label">{label}</span>
        <span className="weather-number">{value ?? "–"}</span>
        {typeof value !== "string" && <span className="entry-unit">{unit}</span>}
        {value === null && none && (
          <button type="button" className="small-key" onClick={none.onPress}>
            {none.word}
          </button>
        )}
      </output>
      <StepKeys step={1} coarse={5} unit={`${unit} ${label.toLowerCase()}`} onStep={onStep} />
    </div>
  );
}
