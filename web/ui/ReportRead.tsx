import { useMemo } from "react";
import type { UnitChoice } from "../../shared/models/unitChoice.ts";
import { type FieldReport, readFieldReport } from "../../shared/models/weather/fieldReport.ts";
import { timeOfDay } from "../../shared/words/dates.ts";
import { outcomesOf } from "../../shared/words/outcomes.ts";
import { writtenBoth } from "../../shared/words/quantity.ts";
import type { Words } from "../words/catalogue.ts";
import type { LaterWords } from "../words/en/later.ts";
import { useLaterWords } from "../words/later.ts";
import { useWords } from "../words/words.ts";
import { ago } from "./numbers.ts";
import { useUnits } from "./units.ts";

interface Props {
  metar: string;
  now: number;
  /** Age at which a report no longer describes the present, milliseconds; data of the type. */
  mostAge: number;
  disabled: boolean;
  onSend(): void;
}

/** The content of a report before anybody sends it, or the reason why it cannot be used. */
export function ReportRead({ metar, now, mostAge, disabled, onSend }: Props) {
  const words = useWords();
  const { airEntry: air } = useLaterWords();
  const { say } = words;
  const units = useUnits();
  const second = Math.floor(now / 1000) * 1000;
  const read = useMemo(() => readFieldReport(metar, second, mostAge), [metar, second, mostAge]);
  const trouble = !read.ok
    ? outcomesOf(say).reportFault(read.fault, units)
    : read.value.windKt === null
      ? air.noWind
      : null;
  return (
    <>
      {read.ok && (
        <dl className="report-read">
          {rows(read.value, units, now, words, air).map(([name, words]) => (
            <div key={name}>
              <dt>{name}</dt>
              <dd>{words}</dd>
            </div>
          ))}
        </dl>
      )}
      {trouble && (
        <p className="trouble" role="alert">
          {trouble}
        </p>
      )}
      <button
        type="button"
        className="answer"
        data-tone="yes"
        disabled={disabled || trouble !== null}
        onClick={onSend}
      >
        {air.send}
      </button>
    </>
  );
}

function rows(
  report: FieldReport,
  units: UnitChoice,
  now: number,
  { say, text }: Words,
  air: LaterWords["airEntry"],
): [name: string, words: string][] {
  const { windKt, gustKt, fromDeg, swing, thunder, temperatureC, dewPointC, qnhHpa, observedAt, station } =
    report;
  const figure = (value: number | null, unit: "degC" | "hPa" | "kt") =>
    value === null ? air.none : writtenBoth({ value, unit }, units);
  const from = fromDeg === null ? air.variable : `${fromDeg}°`;
  return [
    ...(thunder
      ? [[outcomesOf(say).reportPart("thunder"), outcomesOf(say).reportThunder] as [string, string]]
      : []),
    [
      outcomesOf(say).reportPart("observed"),
      `${station}, ${timeOfDay(observedAt).slice(0, 5)} UTC, ${ago(now - observedAt, text)}`,
    ],
    [outcomesOf(say).reportPart("wind"), figure(windKt, "kt")],
    [
      outcomesOf(say).reportPart("direction"),
      [from, ...(swing ? [outcomesOf(say).reportSwings(...swing)] : [])].join(", "),
    ],
    [outcomesOf(say).reportPart("gust"), figure(gustKt, "kt")],
    [outcomesOf(say).reportPart("temperature"), figure(temperatureC, "degC")],
    [outcomesOf(say).reportPart("dewPoint"), figure(dewPointC, "degC")],
    [outcomesOf(say).reportPart("qnh"), figure(qnhHpa, "hPa")],
  ];
}
