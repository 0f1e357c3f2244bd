import type { StartRow } from "../../../shared/history/row.ts";
import { dayAndMinute } from "../../../shared/words/dates.ts";
import { workedOut } from "../../../shared/words/quantity.ts";
import { useUnits } from "../../ui/units.ts";
import { useHistoryWords } from "../../words/history.ts";
import { useWords } from "../../words/words.ts";
import { RecordKey } from "./RecordKey.tsx";

/** The starts of an aircraft, the newest first. */
export function StartsTable({ rows }: { rows: readonly StartRow[] }) {
  const words = useHistoryWords();
  const { say } = useWords();
  const units = useUnits();
  const figure = (row: StartRow, id: "starterS" | "starterMeasuredS" | "oilNormalS") => {
    const read = row.figures[id];
    return read ? workedOut(read.value, read.unit, units) : "";
  };
  const starter = (row: StartRow) => {
    const found = figure(row, "starterMeasuredS");
    return [figure(row, "starterS"), ...(found ? [words.measured(found)] : [])].join(", ");
  };
  return (
    <section className="own" aria-label={words.startsTable}>
      <h2>{words.startsTable}</h2>
      <div className="history-scroll">
        <table className="history-starts">
          <thead>
            <tr>
              {[words.day, words.engine, words.reached, words.starterAs, words.oilAs, words.stopsAs].map(
                (h) => (
                  <th key={h} scope="col">
                    {h}
                  </th>
                ),
              )}
              <th scope="col">{words.cockpitAs}</th>
              <th scope="col">{words.record}</th>
            </tr>
          </thead>
          <tbody>
            {[...rows].reverse().map((row) => (
              <tr key={`${row.session} ${row.seq}`}>
                <td>{dayAndMinute(row.at, say.language)}</td>
                <td className="history-figure">{row.n}</td>
                <td>{[words.reachedAs[row.reached], ...(row.cleared ? [] : [words.cleared])].join(", ")}</td>
                <td className="history-figure">{starter(row)}</td>
                <td className="history-figure">{figure(row, "oilNormalS")}</td>
                <td>{happened(row, words)}</td>
                <td>{row.crew.cockpit === null ? "" : say.person(row.crew.cockpit)}</td>
                <td>
                  <RecordKey session={row.session} at={row.at} />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}

function happened({ stops, alerts, differs }: StartRow, words: ReturnType<typeof useHistoryWords>): string {
  const said = stops.map((s) => (s.reason === null ? words.stop[s.is] : `${words.stop[s.is]}: ${s.reason}`));
  const apart = differs.map((d) => words.differs[d.figure]);
  return [...apart, ...said, ...(alerts.length > 0 ? [words.alerts(alerts.length)] : [])].join("; ");
}
