import { useState } from "react";
import type { SessionEvent } from "../../../shared/protocol/events.ts";
import { momentsIn } from "../../../shared/rehearsal/moments.ts";
import { timeOfDay } from "../../../shared/words/dates.ts";
import { lookupOf, sayEvent } from "../../../shared/words/events.ts";
import { eventsSince } from "../../net/eventsSince.ts";
import { rehearsals } from "../../net/rehearsals.ts";
import { useUnits } from "../../ui/units.ts";
import { useRehearsalWords } from "../../words/rehearsal.ts";
import { useWords } from "../../words/words.ts";

/** Most moments that are offered. */
const MOST = 20;

/** The moments of a rehearsal to which an instructor may go back; each begins a rehearsal of its own there. */
export function GoBack({ id, onAsk }: { id: string; onAsk(work: Promise<unknown>): void }) {
  const words = useRehearsalWords();
  const { say } = useWords();
  const units = useUnits();
  const [events, setEvents] = useState<SessionEvent[]>([]);
  const [chosen, setChosen] = useState<number | null>(null);
  const look = () => onAsk(eventsSince(id, 0).then(setEvents));
  const moments = momentsIn(events, MOST);
  const lookup = lookupOf(events, say);
  return (
    <details onToggle={(e) => e.currentTarget.open && look()}>
      <summary className="small-key">{words.goBack}</summary>
      <p className="rehearsal-note">{words.goBackWhat}</p>
      {moments.length === 0 && <p>{words.noMoments}</p>}
      <ol className="rehearsal-scripts">
        {moments.map((event) => (
          <li key={event.seq}>
            <button
              type="button"
              className="small-key"
              aria-pressed={event.seq === chosen}
              onClick={() => setChosen(event.seq === chosen ? null : event.seq)}
            >
              {`${event.seq}. ${timeOfDay(event.at)} ${sayEvent(event, lookup, units)}`}
            </button>
          </li>
        ))}
      </ol>
      <button
        type="button"
        className="small-key"
        disabled={chosen === null}
        onClick={() => chosen !== null && onAsk(rehearsals.back(id, chosen))}
      >
        {chosen === null ? words.chooseMoment : words.tryAgain(chosen)}
      </button>
    </details>
  );
}
