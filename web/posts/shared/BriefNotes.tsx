import "../../styles/briefNotes.css";
import { sayNote } from "../../../shared/words/history.ts";
import { useHistoryNotes } from "../../net/useHistoryNotes.ts";
import { useUnits } from "../../ui/units.ts";
import { useHistoryWords } from "../../words/history.ts";
import { useWords } from "../../words/words.ts";

/** Drifts of the engines, for the crew to know before the start. It asks for nothing. */
export function BriefNotes({ aircraft }: { aircraft: string }) {
  const words = useHistoryWords();
  const { language } = useWords().say;
  const units = useUnits();
  const notes = useHistoryNotes(aircraft);
  if (notes.length === 0) return null;
  return (
    <section className="brief-notes" aria-label={words.notes}>
      <h3>{words.notes}</h3>
      <ul>
        {notes.map((note) => (
          <li key={`${note.serial} ${note.figure}`}>{sayNote(note, language, units)}</li>
        ))}
      </ul>
    </section>
  );
}
