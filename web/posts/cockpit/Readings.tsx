import { useDeferredValue } from "react";
import type { SessionEvent } from "../../../shared/protocol/events.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import { writtenBoth } from "../../../shared/words/quantity.ts";
import { StripChart } from "../../ui/charts/StripChart.tsx";
import { seconds } from "../../ui/numbers.ts";
import { useUnits } from "../../ui/units.ts";
import { useLaterWords } from "../../words/later.ts";
import { OLD_MS, type Trace, tracesOf, WINDOW_MS } from "./traces.ts";

interface Props {
  state: SessionState;
  events: readonly SessionEvent[];
  now: number;
}

/**
 * Readings of the last minutes, one strip chart for each gauge and engine, with the latest figure, its limits and its
 * age.
 */
export function Readings(newest: Props) {
  // Drawn behind the ask and the stops, so that a touch never waits for the charts.
  const { state, events, now } = useDeferredValue(newest);
  const { charts: words } = useLaterWords();
  const traces = tracesOf(events, state.type, state.order, now);
  const gauges = [...new Set(traces.map((t) => t.marks.name))];
  return (
    <section className="readings" aria-label={words.title(WINDOW_MS / 60_000)}>
      <h3>{words.title(WINDOW_MS / 60_000)}</h3>
      {traces.length === 0 && <p className="readings-none">{words.none}</p>}
      {gauges.map((name) => (
        <div key={name} className="readings-gauge">
          <h4>{name || words.groundPower}</h4>
          <div className="readings-strips">
            {traces
              .filter((t) => t.marks.name === name)
              .map((t) => (
                <OneStrip key={t.key} trace={t} now={now} />
              ))}
          </div>
        </div>
      ))}
    </section>
  );
}

function OneStrip({ trace: { engine, marks, points, band }, now }: { trace: Trace; now: number }) {
  const { charts: words } = useLaterWords();
  const units = useUnits();
  const last = points.at(-1);
  if (!last) return null;
  const age = now - last.at;
  const figure = writtenBoth({ value: last.value, unit: marks.unit }, units, { step: marks.scale.step });
  const where = engine == null ? words.aircraft : words.engine(engine);
  const bandWord = band === null ? "" : words.bands[band];
  const old = age > OLD_MS;
  return (
    <figure className="readings-strip" data-band={(!old && band) || undefined} data-old={old || undefined}>
      <figcaption>
        {engine != null && <b>{engine}</b>}
        <strong>{figure}</strong>
        <span className="readings-band">{old ? words.old(seconds(age)) : bandWord}</span>
      </figcaption>
      <StripChart
        marks={marks}
        points={points}
        from={now - WINDOW_MS}
        to={now}
        label={words.says(
          marks.name || words.groundPower,
          where,
          figure,
          bandWord,
          seconds(age),
          points.length,
        )}
      />
    </figure>
  );
}
