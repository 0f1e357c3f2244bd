import type { HistoryNote } from "../../../shared/history/notes.ts";
import { sayNote } from "../../../shared/words/history.ts";
import { useUnits } from "../../ui/units.ts";
import { useHistoryWords } from "../../words/history.ts";
import { useWords } from "../../words/words.ts";
import { go } from "../route.ts";

interface Props {
  notes: readonly HistoryNote[];
  /** True on the page of all engines of an aircraft: a touch opens the engine's charts. */
  linked: boolean;
}

/** The drifts of engines, one sentence each. */
export function Notes({ notes, linked }: Props) {
  const words = useHistoryWords();
  const { language } = useWords().say;
  const units = useUnits();
  const title = linked ? words.notes : words.notesOfOne;
  return (
    <section className="own history-notes" aria-label={title}>
      <h2>{title}</h2>
      {notes.length === 0 && <p className="history-quiet">{words.noNotes}</p>}
      <ul>
        {notes.map((note) => (
          <li key={`${note.serial} ${note.figure}`}>
            <span>{sayNote(note, language, units)}</span>
            {linked && (
              <button
                type="button"
                className="small-key"
                onClick={() => go(`/engines/${encodeURIComponent(note.serial)}`)}
              >
                {words.charts}
              </button>
            )}
          </li>
        ))}
      </ul>
      {notes.length > 0 && <p className="history-quiet">{words.notesAre}</p>}
    </section>
  );
}
