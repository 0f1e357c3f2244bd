import { type BesideInstrument, besideInstruments } from "../../../shared/readings/besideInstruments.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import { stationNow } from "../../../shared/weather/stationNow.ts";
import { writtenBoth } from "../../../shared/words/quantity.ts";
import "../../styles/instruments.css";
import { seconds, together } from "../../ui/numbers.ts";
import { useUnits } from "../../ui/units.ts";
import { useLaterWords } from "../../words/later.ts";
import { airWords } from "./airNotes.ts";

interface Props {
  state: SessionState;
  now: number;
}

/** The last readings of instruments and of the field's station, marked as theirs, each beside what a person read. */
export function InstrumentsNow({ state, now }: Props) {
  const { instruments: words } = useLaterWords();
  const rows = besideInstruments(state, now);
  const gauges = [...new Set(rows.map((row) => row.gauge))];
  if (rows.length === 0 && !state.station) return null;
  return (
    <section className="instruments" aria-label={words.title}>
      <h3>{words.title}</h3>
      <Station state={state} now={now} />
      {rows.length > 0 && <p className="instruments-lead">{words.lead}</p>}
      {gauges.map((gauge) => (
        <div key={gauge.id} className="instruments-gauge">
          <h4>{gauge.name}</h4>
          <ul>
            {rows
              .filter((row) => row.gauge === gauge)
              .map((row) => (
                <Row key={row.engine} row={row} now={now} />
              ))}
          </ul>
        </div>
      ))}
    </section>
  );
}

function Row({
  row: { gauge, engine, read, old, band, person },
  now,
}: {
  row: BesideInstrument;
  now: number;
}) {
  const { instruments: words, charts } = useLaterWords();
  const units = useUnits();
  const figure = (of: { value: number; unit: typeof gauge.unit }) =>
    together(writtenBoth(of, units, { step: gauge.scale.step }));
  const age = seconds(now - read.at);
  return (
    <li data-band={band ?? undefined} data-old={old || undefined}>
      {engine !== null && <b>{engine}</b>}
      <strong>{figure(read)}</strong>
      <span className="instruments-band">
        {old ? together(words.old(age)) : (band && charts.bands[band]) || null}
      </span>
      <span className="instruments-by">
        {words.mark} {read.name}
      </span>
      <span className="instruments-person">
        {person
          ? words.person(figure(person), person.name, together(seconds(now - person.at)))
          : words.nobody}
      </span>
    </li>
  );
}

/** The report of the field's own station as it came, and its wind judged as a person's is judged. */
function Station({ state, now }: Props) {
  const { instruments: words, air: airText } = useLaterWords();
  const units = useUnits();
  const station = stationNow(state, now);
  if (!station) return null;
  const { report, air, verdict } = station;
  return (
    <div className="instruments-gauge">
      <h4>{words.station}</h4>
      <ul>
        <li data-verdict={verdict} data-old={verdict === "stale" || undefined}>
          <strong>{air ? airWords(air, units, airText) : words.notGiven}</strong>
          <span className="instruments-band">{words.verdicts[verdict]}</span>
          <span className="instruments-by">
            {words.mark} {words.stationBy(report.name, together(seconds(now - report.observedAt)))}
          </span>
          <code lang="en">{report.metar}</code>
        </li>
      </ul>
    </div>
  );
}
