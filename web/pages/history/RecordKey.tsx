import { dayAndMinute } from "../../../shared/words/dates.ts";
import { useHistoryWords } from "../../words/history.ts";
import { useWords } from "../../words/words.ts";
import { go } from "../route.ts";

/** A key that opens the record of a start. */
export function RecordKey({ session, at }: { session: string; at: number }) {
  const words = useHistoryWords();
  const { language } = useWords().say;
  return (
    <button
      type="button"
      className="small-key"
      aria-label={words.openRecord(dayAndMinute(at, language))}
      onClick={() => go(`/session/${session}/record`)}
    >
      {words.record}
    </button>
  );
}
