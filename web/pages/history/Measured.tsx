import { MEASURED_FIGURES } from "../../../shared/history/row.ts";
import { measuredLog } from "../../../shared/paper/measuredLog.ts";
import type { SessionEvent } from "../../../shared/protocol/events.ts";
import { measuredWords } from "../../../shared/words/measured.ts";
import "../../styles/measured.css";
import { together } from "../../ui/numbers.ts";
import { useWords } from "../../words/words.ts";

/** Measurements of each start by instruments, beside what people said, on the page of its record. Nothing where there are none. */
export function Measured({ events }: { events: readonly SessionEvent[] }) {
  const { language } = useWords().say;
  const rows = measuredLog(events, language);
  const words = measuredWords(language);
  if (rows.length === 0) return null;
  return (
    <section className="measured" aria-labelledby="measured-title">
      <h2 id="measured-title">{words.title}</h2>
      <p>{words.lead}</p>
      {rows.map(({ n, attempt, cells }) => (
        <article key={`${n} ${attempt}`} aria-label={`${words.engine} ${n}, ${words.attempt} ${attempt}`}>
          <h3>
            <b>{n}</b> {words.attempt} {attempt}
          </h3>
          <dl>
            {MEASURED_FIGURES.map((figure) => {
              const { said, measured, verdict, differs } = cells[figure];
              return (
                <div key={figure} data-differs={differs || undefined}>
                  <dt>{words.figures[figure]}</dt>
                  <dd>
                    {together(`${words.said} ${said ?? "–"}, ${words.measured} ${measured ?? "–"}`)}
                    {verdict !== null && <strong>{together(verdict)}</strong>}
                  </dd>
                </div>
              );
            })}
          </dl>
        </article>
      ))}
    </section>
  );
}
