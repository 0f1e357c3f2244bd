import type { Written } from "../../../shared/history/written/written.ts";
import { dayAndMinute } from "../../../shared/words/dates.ts";
import { outcomesOf } from "../../../shared/words/outcomes.ts";
import { useSearchWords } from "../../words/search.ts";
import { useWords } from "../../words/words.ts";
import { go } from "../route.ts";

/** Begins the id of an aircraft's own record: its defects are on the aircraft's page. */
const RECORD = "record-";

/** One writing: what it is, where, when and by whom, its words, and a key to the record that holds it. */
export function FoundRow({ written }: { written: Written }) {
  const words = useSearchWords();
  const { say } = useWords();
  const { kind, aircraft, engine, at, by, post, people, session } = written;
  const day = dayAndMinute(at, say.language);
  const who = [by === null ? null : say.person(by), post === null ? null : say.posts([post])];
  const ofAircraft = session.startsWith(RECORD);
  const place = encodeURIComponent(aircraft);
  return (
    <li className="found-row">
      <strong className="found-kind">{words.kinds[kind]}</strong>
      <span className="found-where">
        {engine === null ? aircraft : words.engineOf(engine, aircraft)}
        <br />
        {day}
      </span>
      <span className="found-words">
        {written.refused && <span>{refusalSaid(written.refused, say)}</span>}
        {written.words !== null && <span>{written.words}</span>}
        {people.length > 0 && <span>{people.map((name) => say.person(name)).join(", ")}</span>}
        <span className="found-who">{who.filter(Boolean).join(", ")}</span>
      </span>
      <button
        type="button"
        className="small-key"
        aria-label={ofAircraft ? words.openAircraft(aircraft) : words.openRecord(aircraft, day)}
        onClick={() => go(ofAircraft ? `/aircraft/${place}` : `/session/${session}/record`)}
      >
        {ofAircraft ? words.aircraft : words.record}
      </button>
    </li>
  );
}

function refusalSaid(
  { reason, conditions }: NonNullable<Written["refused"]>,
  say: ReturnType<typeof useWords>["say"],
): string {
  const unmet = conditions.map((id) => say.conditionName(id)).join(", ");
  return [outcomesOf(say).anyRefusal(reason), unmet].filter(Boolean).join(" ");
}
