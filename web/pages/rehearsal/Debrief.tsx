import type { SessionEvent } from "../../../shared/protocol/events.ts";
import { debriefOf } from "../../../shared/rehearsal/debrief.ts";
import { timeOfDay } from "../../../shared/words/dates.ts";
import { debriefLead, debriefWords, sayDebrief } from "../../../shared/words/debrief.ts";
import { useUnits } from "../../ui/units.ts";
import { useWords } from "../../words/words.ts";
import { BesideLast } from "./BesideLast.tsx";

/** The debrief of a rehearsal, on the page of its record. Draws nothing for a start. */
export function Debrief({ events }: { events: readonly SessionEvent[] }) {
  const { say } = useWords();
  const units = useUnits();
  const plan = events[0]?.fact;
  if (plan?.type !== "planned" || !plan.rehearsal) return null;
  const words = debriefWords(say.language);
  const lines = debriefOf(events);
  const over = events.some(
    ({ fact }) => fact.type === "stageReached" && (fact.stage === "closed" || fact.stage === "abandoned"),
  );
  const id = events[0]?.session ?? "";
  return (
    <section className="debrief">
      <h2>{words.title}</h2>
      {debriefLead(plan.rehearsal, say).map((said) => (
        <p key={said}>{said}</p>
      ))}
      {lines.length === 0 && <p>{words.none}</p>}
      <ol className="record-list">
        {lines.map((line) => (
          <li key={`${line.is} ${line.seq}`} data-bad={!line.good || undefined}>
            <span className="record-seq">{line.seq}</span>
            <span className="record-time">{timeOfDay(line.at)}</span>
            <span>{sayDebrief(line, plan.aircraftType, say, units)}</span>
          </li>
        ))}
      </ol>
      {over && <BesideLast id={id} />}
    </section>
  );
}
